#include "core/listing/derivation_text.h"
#include "core/wording/wording.h"
#include "ui/look/text.h"
#include "ui/print/lists.h"

#include <algorithm>
#include <set>
#include <string>
#include <vector>

namespace fl::ui::print {
namespace {

// Long sources are named once, at the end, and by their number before.
class Sources {
public:
    QString cited(const std::string& source) {
        constexpr std::size_t short_enough = 36;
        if (source.size() <= short_enough) return of(source);
        auto known = std::find(all_.begin(), all_.end(), source);
        if (known == all_.end()) known = all_.insert(all_.end(), source);
        return QStringLiteral("[%1]").arg(known - all_.begin() + 1);
    }
    void add_list(Pieces& to) const {
        if (all_.empty()) return;
        add_heading(to, QStringLiteral("Sources"));
        for (std::size_t i = 0; i < all_.size(); ++i)
            add_paragraph(to, QStringLiteral("[%1]  %2").arg(i + 1).arg(of(all_[i])), 0, body_mm);
    }

private:
    std::vector<std::string> all_;
};

// Where a formula stands, or who said a value.
QString origin_of(const derive::Derivation& d, Sources& sources) {
    QString source = d.source.empty() ? QString() : sources.cited(d.source);
    if (!d.formula.empty() || !d.inputs.empty()) return source;
    const QString kind = of(std::string(listing::kind_of(d.leaf)));
    if (source.isEmpty() || source.startsWith(kind)) return source.isEmpty() ? kind : source;
    return kind + (source.startsWith(QLatin1Char('[')) ? QStringLiteral(" ") : QStringLiteral(": ")) + source;
}

// Each level further in.
void add_derivation(Pieces& to, const derive::Derivation& d, int level, Sources& sources) {
    constexpr int deepest = 4; // beyond, inputs are the solver's own, of which there is no end
    const double indent = 4 + 5.0 * level;
    QString line = of(d.symbol);
    if (!d.formula.empty()) line += QStringLiteral(" = ") + of(d.formula);
    line += QStringLiteral(" = ") + of(listing::text_of(d.value));
    if (!d.what.empty()) line += QStringLiteral("  (%1)").arg(of(d.what));
    const QString origin = origin_of(d, sources);
    if (!origin.isEmpty()) line += QStringLiteral(" · ") + origin;
    const bool more = !d.inputs.empty() && level < deepest;
    add_formula(to, line, indent, level == 0 ? look::Cut::semibold : look::Cut::regular, more);
    if (more)
        for (const derive::Derivation& input : d.inputs) add_derivation(to, input, level + 1, sources);
}

// What a finding's subjects rest on: what a conductor carries and may carry.
std::vector<assess::Question> questions_of(const rules::Finding& f) {
    std::vector<assess::Question> all;
    for (const plan::Subject& subject : f.subjects)
        if (subject.kind == plan::Subject::Kind::conductor && all.empty()) {
            all.push_back({assess::Quantity::may_carry, subject, {}});
            all.push_back({assess::Quantity::current, subject, f.condition});
        }
    return all;
}

} // namespace

Pieces calculations(const assess::Assessment& a) {
    Pieces to;
    Sources sources;
    std::set<std::pair<std::uint32_t, assess::Quantity>> told;
    for (std::size_t i = 0; i < a.findings.size(); ++i) {
        const rules::Finding& f = a.findings[i];
        add_heading(to, QStringLiteral("%1  %2").arg(i + 1).arg(of(wording::title(f.code))));
        add_paragraph(to, of(wording::sentence(f, a.installation)), 0, body_mm, look::Cut::regular, true);
        QStringList values;
        for (const auto& [name, value] : f.values)
            values << of(name).replace(QLatin1Char('_'), QLatin1Char(' ')) + QStringLiteral(" = ") +
                          of(wording::text(value));
        add_paragraph(to, values.join(QStringLiteral(" · ")), 4);
        for (const assess::Question& question : questions_of(f)) {
            if (!told.insert({question.subject.id, question.quantity}).second) continue;
            const auto why = assess::why(a, question);
            if (!why) continue;
            add_space(to, 1.5);
            add_derivation(to, *why, 0, sources);
        }
    }
    sources.add_list(to);
    return to;
}

} // namespace fl::ui::print
