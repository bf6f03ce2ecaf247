#pragma once

#include <QAbstractButton>
#include <cstdint>
#include <optional>

namespace fl::rules {
enum class Grade : std::uint8_t;
}

namespace fl::ui {

/// One of several to choose from: a name, under it a caption, a mark at the right. The chosen one is tinted,
/// Semibold and has a 2 px bar. The arrow keys go to the next one.
class Choice : public QAbstractButton {
    Q_OBJECT
public:
    explicit Choice(QWidget* parent = nullptr);
    void say(const QString& name, const QString& caption = {}, std::optional<rules::Grade> mark = {},
             bool old = false);
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override { return sizeHint(); }

Q_SIGNALS:
    void stepped(int by); ///< an arrow key: 1 to the next, -1 to the one before

protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    QString caption_;
    std::optional<rules::Grade> mark_;
    bool old_ = false;
};

} // namespace fl::ui
