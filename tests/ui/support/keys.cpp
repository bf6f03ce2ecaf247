#include "tests/ui/support/keys.h"

#include <QApplication>
#include <QKeySequence>
#include <QTest>
#include <QWidget>
#include <bit>

namespace fl::test {
namespace {

Key named(const QString& name) {
    const QKeySequence sequence = QKeySequence::fromString(name, QKeySequence::PortableText);
    if (sequence.count() != 1 || sequence[0].key() == Qt::Key_unknown) return {};
    return {sequence[0].key(), sequence[0].keyboardModifiers(), {}};
}

Key of(QChar sign) {
    // The signs that need Shift on the keyboards of this trade's countries differ; all but these count as
    // one.
    const bool shifted = sign.isUpper() || QStringLiteral("!\"%&()*+:;<=>?_").contains(sign);
    return {sign.toUpper().unicode(), shifted ? Qt::ShiftModifier : Qt::NoModifier, QString(sign)};
}

} // namespace

std::vector<Key> read_keys(const QString& script) {
    std::vector<Key> keys;
    for (const QString& line : script.split(QLatin1Char('\n'), Qt::SkipEmptyParts)) {
        if (line.startsWith(QLatin1Char('#'))) continue;
        for (qsizetype i = 0; i < line.size(); ++i) {
            const qsizetype end = line[i] == QLatin1Char('<') ? line.indexOf(QLatin1Char('>'), i) : -1;
            if (end < 0) {
                keys.push_back(of(line[i]));
                continue;
            }
            keys.push_back(named(line.mid(i + 1, end - i - 1)));
            if (keys.back().key == 0) return {};
            i = end;
        }
        if (!line.endsWith(QLatin1Char('>'))) keys.push_back({Qt::Key_Return, Qt::NoModifier, {}});
    }
    return keys;
}

int presses(const std::vector<Key>& keys) {
    int count = 0;
    for (const Key& key : keys) count += 1 + std::popcount(static_cast<unsigned>(key.held.toInt()));
    return count;
}

void type(QWidget& window, const std::vector<Key>& keys) {
    for (const Key& key : keys) {
        QWidget* target = QApplication::focusWidget(); // null where no window is the active one
        if (!target || !window.isAncestorOf(target)) target = window.focusWidget();
        if (!target) target = &window;
        QTest::sendKeyEvent(QTest::Click, target, static_cast<Qt::Key>(key.key), key.text, key.held);
    }
}

} // namespace fl::test
