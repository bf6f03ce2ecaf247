#pragma once

#include "core/enter/enter.h"

#include <QStringList>
#include <QWidget>

class QComboBox;
class QLabel;
class QLineEdit;
class QVBoxLayout;

namespace fl::ui {

/// What stands where the sheet will be, before there is a job: one choice of vehicle or craft with its
/// voltage, and two numbers of the vehicle's own side. Enter accepts what is offered.
class StartPage : public QWidget {
    Q_OBJECT
public:
    explicit StartPage(QWidget* parent = nullptr);

    /// Offers work that was not saved when a program ended, one line each, above all else.
    void offer_unsaved(const QStringList& files);
    /// Says what is wrong, where the start's own faults are said.
    void say(const QString& sentence);

Q_SIGNALS:
    void begun(const fl::plan::Installation& installation);
    void taken_up(const QString& file);
    void thrown_away(const QString& file);

private:
    void show_voltages();
    void begin();

    std::vector<enter::Choice> choices_;
    QComboBox *kind_, *voltage_;
    QLineEdit *battery_, *alternator_;
    QLabel* wrong_;
    QVBoxLayout* unsaved_;
};

} // namespace fl::ui
