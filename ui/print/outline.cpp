#include "ui/print/outline.h"

// The C interface: clang can't read the C++ one as C++20 with this distribution's library.
#include <qpdf/qpdf-c.h>

#include <map>
#include <string>

namespace fl::ui::print {
namespace {

// A document of qpdf's; its objects are numbers that live as long as it does.
class Pdf {
public:
    using Object = qpdf_oh;

    Pdf()
        : data_(qpdf_init()) {
        qpdf_silence_errors(data_);
        qpdf_set_suppress_warnings(data_, QPDF_TRUE);
    }
    Pdf(const Pdf&) = delete;
    Pdf& operator=(const Pdf&) = delete;
    ~Pdf() { qpdf_cleanup(&data_); }

    void read(const QByteArray& bytes) {
        qpdf_read_memory(data_, "pages", bytes.constData(), static_cast<unsigned long long>(bytes.size()),
                         nullptr);
    }
    QByteArray written() {
        qpdf_init_write_memory(data_);
        if (qpdf_has_error(data_) == QPDF_TRUE) return {};
        qpdf_set_deterministic_ID(data_, QPDF_TRUE);
        qpdf_write(data_);
        return {reinterpret_cast<const char*>(qpdf_get_buffer(data_)),
                static_cast<qsizetype>(qpdf_get_buffer_length(data_))};
    }
    /// What went wrong since it was last asked; empty when nothing did.
    std::string fault() {
        if (qpdf_has_error(data_) != QPDF_TRUE) return {};
        return qpdf_get_error_full_text(data_, qpdf_get_error(data_));
    }

    Object root() { return qpdf_get_root(data_); }
    Object trailer() { return qpdf_get_trailer(data_); }
    Object page(int index) { return qpdf_get_page_n(data_, static_cast<std::size_t>(index)); }
    Object object(int number) { return qpdf_get_object_by_id(data_, number, 0); }
    Object dictionary() { return qpdf_oh_new_dictionary(data_); }
    Object own(Object object) { return qpdf_make_indirect_object(data_, object); }
    Object name(const char* text) { return qpdf_oh_new_name(data_, text); }
    Object text(const std::string& utf8) { return qpdf_oh_new_unicode_string(data_, utf8.c_str()); }
    Object whole(long long number) { return qpdf_oh_new_integer(data_, number); }
    Object yes() { return qpdf_oh_new_bool(data_, QPDF_TRUE); }
    Object list(std::initializer_list<Object> items) {
        const Object made = qpdf_oh_new_array(data_);
        for (const Object item : items) qpdf_oh_append_item(data_, made, item);
        return made;
    }
    bool is_dictionary(Object object) { return qpdf_oh_is_dictionary(data_, object) == QPDF_TRUE; }
    bool has(Object in, const char* key) { return qpdf_oh_has_key(data_, in, key) == QPDF_TRUE; }
    Object get(Object in, const char* key) { return qpdf_oh_get_key(data_, in, key); }
    std::string name_of(Object object) { return qpdf_oh_get_name(data_, object); }
    int number_of(Object object) { return qpdf_oh_get_int_value_as_int(data_, object); }
    void set(Object in, const char* key, Object value) { qpdf_oh_replace_key(data_, in, key, value); }
    void remove(Object in, const char* key) { qpdf_oh_remove_key(data_, in, key); }

private:
    qpdf_data data_;
};

// A flat list of bookmarks, each to the upper left corner of its page (PDF 1.7, 12.3.3).
void add_bookmarks(Pdf& pdf, const std::vector<Bookmark>& bookmarks) {
    if (bookmarks.empty()) return;
    const Pdf::Object root = pdf.own(pdf.dictionary());
    std::vector<Pdf::Object> items;
    for (const Bookmark& one : bookmarks) {
        const Pdf::Object item = pdf.own(pdf.dictionary());
        pdf.set(item, "/Title", pdf.text(one.title));
        pdf.set(item, "/Parent", root);
        pdf.set(item, "/Dest", pdf.list({pdf.page(one.page), pdf.name("/Fit")}));
        if (!items.empty()) {
            pdf.set(item, "/Prev", items.back());
            pdf.set(items.back(), "/Next", item);
        }
        items.push_back(item);
    }
    pdf.set(root, "/Type", pdf.name("/Outlines"));
    pdf.set(root, "/First", items.front());
    pdf.set(root, "/Last", items.back());
    pdf.set(root, "/Count", pdf.whole(static_cast<long long>(items.size())));
    pdf.set(pdf.root(), "/Outlines", root);
    pdf.set(pdf.root(), "/PageMode", pdf.name("/UseOutlines"));
}

void set_properties(Pdf& pdf, const Properties& properties) {
    const Pdf::Object info = pdf.get(pdf.trailer(), "/Info");
    const auto set = [&](const char* key, const QString& text) {
        if (!text.isEmpty()) pdf.set(info, key, pdf.text(text.toStdString()));
    };
    set("/Author", properties.author);
    set("/Subject", properties.subject);
    pdf.remove(info, "/CreationDate");
    pdf.remove(info, "/ModDate");
    const Pdf::Object root = pdf.root();
    pdf.remove(root, "/Metadata"); // holds the date again
    pdf.set(root, "/Lang", pdf.text("en"));
    const Pdf::Object shown = pdf.dictionary();
    pdf.set(shown, "/DisplayDocTitle", pdf.yes());
    pdf.set(root, "/ViewerPreferences", shown);
}

// Qt marks each subset of a font with letters that follow the order of a hash table, another one in each run.
// The same mark serves all, but that subsets of one font count on.
void name_subsets(Pdf& pdf) {
    constexpr std::size_t mark = 7; // six letters and a plus
    std::map<std::string, std::map<std::string, std::string>> named;
    const int size = pdf.number_of(pdf.get(pdf.trailer(), "/Size"));
    for (int number = 1; number < size; ++number) {
        const Pdf::Object object = pdf.object(number);
        if (!pdf.is_dictionary(object)) continue;
        for (const char* key : {"/BaseFont", "/FontName"}) {
            if (!pdf.has(object, key)) continue;
            const std::string name = pdf.name_of(pdf.get(object, key)); // "/QABAAA+Lato-Regular"
            if (name.size() <= mark || name[mark] != '+') continue;
            auto& subsets = named[name.substr(mark + 1)];
            const auto count = static_cast<char>('A' + subsets.size());
            const std::string& fresh =
                subsets.try_emplace(name, std::string("/AAAAA") + count + name.substr(mark)).first->second;
            pdf.set(object, key, pdf.name(fresh.c_str()));
        }
    }
}

} // namespace

Result<QByteArray> with_outline(const QByteArray& made, const Properties& properties,
                                const std::vector<Bookmark>& bookmarks) {
    Pdf pdf;
    QByteArray bytes;
    pdf.read(made);
    std::string fault = pdf.fault();
    if (fault.empty()) {
        name_subsets(pdf); // before the bookmarks: /Size counts what was read
        add_bookmarks(pdf, bookmarks);
        set_properties(pdf, properties);
        bytes = pdf.written();
        fault = pdf.fault();
    }
    if (fault.empty()) return bytes;
    return fail("export.pdf", "", "the bookmarks could not be added: " + fault,
                "a report of this as a fault of the program");
}

} // namespace fl::ui::print
