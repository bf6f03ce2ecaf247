#include "ui/print/outline.h"

#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFWriter.hh>

#include <exception>
#include <map>
#include <string>

namespace fl::ui::print {
namespace {

using Handle = QPDFObjectHandle;

// A flat list of bookmarks, each to the upper left corner of its page (PDF 1.7, 12.3.3).
void add_bookmarks(QPDF& pdf, const std::vector<Bookmark>& bookmarks) {
    if (bookmarks.empty()) return;
    const std::vector<Handle> pages = pdf.getAllPages();
    Handle root = pdf.makeIndirectObject(Handle::newDictionary());
    std::vector<Handle> items;
    for (const Bookmark& one : bookmarks) {
        Handle item = pdf.makeIndirectObject(Handle::newDictionary());
        item.replaceKey("/Title", Handle::newUnicodeString(one.title));
        item.replaceKey("/Parent", root);
        item.replaceKey("/Dest", Handle::newArray({pages.at(static_cast<std::size_t>(one.page)),
                                                   Handle::newName("/Fit")}));
        if (!items.empty()) {
            item.replaceKey("/Prev", items.back());
            items.back().replaceKey("/Next", item);
        }
        items.push_back(item);
    }
    root.replaceKey("/Type", Handle::newName("/Outlines"));
    root.replaceKey("/First", items.front());
    root.replaceKey("/Last", items.back());
    root.replaceKey("/Count", Handle::newInteger(static_cast<long long>(items.size())));
    pdf.getRoot().replaceKey("/Outlines", root);
    pdf.getRoot().replaceKey("/PageMode", Handle::newName("/UseOutlines"));
}

void set_properties(QPDF& pdf, const Properties& properties) {
    Handle info = pdf.getTrailer().getKey("/Info");
    const auto set = [&](const char* key, const QString& text) {
        if (!text.isEmpty()) info.replaceKey(key, Handle::newUnicodeString(text.toStdString()));
    };
    set("/Author", properties.author);
    set("/Subject", properties.subject);
    info.removeKey("/CreationDate");
    info.removeKey("/ModDate");
    Handle root = pdf.getRoot();
    root.removeKey("/Metadata"); // holds the date again
    root.replaceKey("/Lang", Handle::newUnicodeString("en"));
    Handle shown = Handle::newDictionary();
    shown.replaceKey("/DisplayDocTitle", Handle::newBool(true));
    root.replaceKey("/ViewerPreferences", shown);
}

// Qt marks each subset of a font with letters that follow the order of a hash table, another one in each run.
// The same mark serves all, but that subsets of one font count on.
void name_subsets(QPDF& pdf) {
    constexpr std::size_t mark = 7; // six letters and a plus
    std::map<std::string, std::map<std::string, std::string>> named;
    for (Handle& object : pdf.getAllObjects()) {
        if (!object.isDictionary()) continue;
        for (const char* key : {"/BaseFont", "/FontName"}) {
            if (!object.hasKey(key)) continue;
            const std::string name = object.getKey(key).getName(); // "/QABAAA+Lato-Regular"
            if (name.size() <= mark || name[mark] != '+') continue;
            auto& subsets = named[name.substr(mark + 1)];
            const auto count = static_cast<char>('A' + subsets.size());
            const std::string& fresh =
                subsets.try_emplace(name, std::string("/AAAAA") + count + name.substr(mark)).first->second;
            object.replaceKey(key, Handle::newName(fresh));
        }
    }
}

} // namespace

Result<QByteArray> with_outline(const QByteArray& made, const Properties& properties,
                                const std::vector<Bookmark>& bookmarks) {
    try {
        QPDF pdf;
        pdf.processMemoryFile("pages", made.constData(), static_cast<std::size_t>(made.size()));
        add_bookmarks(pdf, bookmarks);
        set_properties(pdf, properties);
        name_subsets(pdf);
        QPDFWriter writer(pdf);
        writer.setOutputMemory();
        writer.setDeterministicID(true);
        writer.write();
        const auto bytes = writer.getBufferSharedPointer();
        return QByteArray(reinterpret_cast<const char*>(bytes->getBuffer()),
                          static_cast<qsizetype>(bytes->getSize()));
    } catch (const std::exception& fault) {
        return fail("export.pdf", "", "the bookmarks could not be added: " + std::string(fault.what()),
                    "a report of this as a fault of the program");
    }
}

} // namespace fl::ui::print
