#pragma once

#include <QString>
#include <vector>

class QWidget;

namespace fl::test {

/// One key of a script, with the modifiers held.
struct Key {
    int key = 0;
    Qt::KeyboardModifiers held;
    QString text;
};

/// Reads a script of keys: every character of a line is a key, a line's end is Enter, `<Tab>`, `<Down>`,
/// `<Ctrl+L>` and the like name others; lines that begin with `#` are comments. An unknown name gives an
/// empty script.
std::vector<Key> read_keys(const QString& script);

/// Key presses a hand makes for them: one each, and one more for every modifier held (a capital or a sign of
/// the upper row holds Shift).
int presses(const std::vector<Key>& keys);

/// Types them into whatever has the focus of this window, one real event after the other.
void type(QWidget& window, const std::vector<Key>& keys);

} // namespace fl::test
