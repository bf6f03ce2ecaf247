#pragma once

#include "core/enter/enter.h"

#include <QWidget>

class QComboBox;
class QLabel;
class QLineEdit;

namespace fl::ui {

/// What stands where the sheet will be, before there is a job: one choice of vehicle or craft with its
/// voltage, and two numbers of the vehicle's own side. Enter accepts what is offered.
class StartPage : public QWidget {
    Q_OBJECT
public:
    explicit StartPage(QWidget* parent = nullptr);

Q_SIGNALS:
    void begun(const fl::plan::Installation& installation);

private:
    void show_voltages();
    void begin();

    std::vector<enter::Choice> choices_;
    QComboBox *kind_, *voltage_;
    QLineEdit *battery_, *alternator_;
    QLabel* wrong_;
};

} // namespace fl::ui
