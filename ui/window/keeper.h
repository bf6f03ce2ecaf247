#pragma once

#include <QObject>
#include <QStringList>
#include <memory>

class QLockFile;

namespace fl::ui {

class Session;

/// Keeps what is not saved: after each edit the whole document goes, on a thread of its own, to a recovery
/// file of the application's. It is removed once the job is saved, or left on purpose.
class Keeper : public QObject {
    Q_OBJECT
public:
    explicit Keeper(Session& session, QObject* parent = nullptr);
    ~Keeper() override;

    /// Recovery files of programs that ended without saving; none of those that still run.
    QStringList left_behind() const;
    /// Opens one as the document, not saved yet. False, and the sentence that says why, if it can't be read.
    bool take_up(const QString& file, QString& why);
    /// Removes one, on purpose.
    void throw_away(const QString& file);

private:
    void keep();
    void forget();

    struct Writer;
    Session& session_;
    QString folder_, token_;
    std::unique_ptr<QLockFile> lock_; // says to others that we run
    std::unique_ptr<Writer> writer_;
    QString kept_; // our recovery file; empty = nothing to keep
};

} // namespace fl::ui
