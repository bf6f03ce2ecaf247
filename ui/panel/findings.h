#pragma once

#include "ui/edit/focus.h"

#include <QWidget>
#include <cstdint>
#include <memory>
#include <optional>

class QLabel;
class QPushButton;
class QListWidget;
class QToolButton;

namespace fl::cure {
struct Cure;
}

namespace fl::ui {

class Session;

/// What the checks found, worst first, good practice folded; choosing one goes to its place. Where a fuse or
/// a rating puts the chosen one right, a button says which and does it, as one step.
class FindingsList : public QWidget {
    Q_OBJECT
public:
    FindingsList(Session& session, Focus& focus, QWidget* parent = nullptr);
    ~FindingsList() override;

private:
    void refresh();
    void mark_chosen();
    void choose(int row);
    void offer();
    void take(std::uint64_t revision, const FindingKey& key, std::optional<cure::Cure> found);
    void mend();

    Session& session_;
    Focus& focus_;
    QLabel* state_;
    QListWidget* list_;
    QToolButton* fold_;
    QLabel* cure_;
    QPushButton* mend_;
    QLabel* open_;
    struct Offer;
    std::unique_ptr<Offer> offer_; // last: it waits for what is being worked out
};

} // namespace fl::ui
