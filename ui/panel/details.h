#pragma once

#include <QWidget>
#include <string>
#include <vector>

class QFormLayout;
class QLabel;

namespace fl::plan {
enum class From : std::uint8_t;
struct Subject;
} // namespace fl::plan

namespace fl::ui {

struct Field;
class FieldEntry;
class Focus;
class Session;

/// The chosen part or conductor: what was computed for it, each number a way into its why, and its fields, to
/// be edited.
class Details : public QWidget {
    Q_OBJECT
public:
    Details(Session& session, Focus& focus, QWidget* parent = nullptr);
    ~Details() override;

private:
    void refresh();
    std::vector<Field> fields_chosen() const; // none where not one thing is chosen
    void build(const std::vector<Field>& fields);
    void show_values(const std::vector<Field>& fields);
    void show_computed();
    void commit(FieldEntry& entry, const std::string& text, int merge);
    void accept(FieldEntry& entry, plan::From from);
    void step(FieldEntry& entry, int by);

    Session& session_;
    Focus& focus_;
    std::vector<plan::Subject> built_; // the selection that the entries are for
    std::vector<FieldEntry*> entries_;
    int interaction_ = 0; // of the field being stepped; 0 = none
    QLabel* heading_;
    QFormLayout* form_;
    QLabel* computed_;
};

} // namespace fl::ui
