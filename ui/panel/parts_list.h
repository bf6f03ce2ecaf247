#pragma once

#include "core/plan/component.h"

#include <QWidget>

class QLineEdit;
class QListWidget;

namespace fl::ui {

/// Every kind of part, filtered by a few typed letters; Enter or a double click hands it to the sheet, which
/// shows its outline until it is dropped.
class PartsList : public QWidget {
    Q_OBJECT
public:
    explicit PartsList(QWidget* parent = nullptr);

Q_SIGNALS:
    void offered(const fl::plan::Component& part);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void filter(const QString& typed);
    void offer();

    QLineEdit* wanted_;
    QListWidget* list_;
};

} // namespace fl::ui
