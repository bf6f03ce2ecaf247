#include "ui/drawing/as_found.h"

#include "core/plan/installation.h"

#include <QList>

namespace fl::ui::drawing {

bool is_found(const plan::Installation& installation, plan::ComponentId id) {
    const plan::Component* component = installation.components.find(id);
    return component && component->origin == plan::Origin::as_found;
}

bool is_found(const plan::Installation& installation, const plan::Subject& subject) {
    if (subject.kind == plan::Subject::Kind::component)
        return subject.part.empty() && is_found(installation, plan::ComponentId{subject.id});
    const plan::Conductor* w = installation.conductors.find({subject.id});
    return subject.kind == plan::Subject::Kind::conductor && w && w->origin == plan::Origin::as_found;
}

QByteArray drawn_as_found(const QByteArray& svg) {
    QByteArray thin;
    for (const QByteArray& line : svg.split('\n')) {
        const QByteArray key = "stroke-width=\"";
        const qsizetype from = line.indexOf(key), begin = from + key.size(), end = line.indexOf('"', begin);
        if (from < 0 || line.contains("fill=\"#FFFFFF\"")) {
            thin += line.contains("<circle") ? QByteArray(line).replace("/>", " stroke-dasharray=\"none\"/>")
                                             : line;
        } else {
            thin += line.left(begin) + QByteArray::number(line.mid(begin, end - begin).toDouble() / 2) +
                    "\"" + (line.startsWith("<g") ? " stroke-dasharray=\"2.6 0.8\"" : "") + line.mid(end + 1);
        }
        thin += '\n';
    }
    return thin;
}

QString as_found_tag() {
    return QStringLiteral("AF");
}

} // namespace fl::ui::drawing
