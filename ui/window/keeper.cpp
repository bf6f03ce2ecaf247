#include "ui/window/keeper.h"

#include "core/file/recovery.h"
#include "core/wording/wording.h"
#include "ui/edit/session.h"

#include <QCoreApplication>
#include <QDir>
#include <QFileInfo>
#include <QLockFile>
#include <QStandardPaths>
#include <algorithm>
#include <condition_variable>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

namespace fl::ui {

// Writes the newest of every document; what comes while one is written waits, and only the last of it.
struct Keeper::Writer {
    struct Job {
        std::string path, of;
        std::optional<plan::Installation> installation; // none = the file goes
        std::string then_remove;                        // once it is written
    };

    Writer()
        : thread_([this](const std::stop_token& stop) { loop(stop); }) {}

    void hand_in(Job job) {
        const std::lock_guard hold(mutex_);
        const auto same = std::find_if(waiting_.begin(), waiting_.end(),
                                       [&](const Job& one) { return one.path == job.path; });
        if (same == waiting_.end()) {
            waiting_.push_back(std::move(job));
        } else {
            if (job.then_remove.empty()) job.then_remove = same->then_remove;
            *same = std::move(job);
        }
        changed_.notify_one();
    }

private:
    static void settle(const Job& job) {
        // That a disk is full or folders are closed to us is told when the job itself is saved.
        if (!job.installation) {
            (void)file::remove_recovery(job.path);
        } else if (file::write_recovery(job.path, job.of, *job.installation) && !job.then_remove.empty() &&
                   job.then_remove != job.path) {
            (void)file::remove_recovery(job.then_remove);
        }
    }
    void loop(const std::stop_token& stop) {
        for (;;) {
            Job job;
            {
                std::unique_lock hold(mutex_);
                changed_.wait(hold, stop, [this] { return !waiting_.empty(); });
                if (waiting_.empty()) return; // asked to stop, and nothing waits
                job = std::move(waiting_.front());
                waiting_.erase(waiting_.begin());
            }
            settle(job);
        }
    }

    std::mutex mutex_;
    std::condition_variable_any changed_;
    std::vector<Job> waiting_; // one a file, oldest first
    std::jthread thread_;      // last: stops and joins before the rest is destroyed
};

namespace {

// The session's token in a recovery file's name: "1f2e-TOKEN.recovery.fuseloom".
QString token_of(const QString& file) {
    const QString name = QFileInfo(file).fileName();
    return name.section(QLatin1Char('.'), 0, 0).section(QLatin1Char('-'), 1);
}

QString lock_path(const QString& folder, const QString& token) {
    return folder + QLatin1Char('/') + token + QStringLiteral(".lock");
}

} // namespace

Keeper::Keeper(Session& session, QObject* parent)
    : QObject(parent)
    , session_(session)
    , folder_(QStandardPaths::writableLocation(QStandardPaths::AppDataLocation) + QStringLiteral("/unsaved"))
    , writer_(std::make_unique<Writer>()) {
    static int windows = 0;
    token_ = QStringLiteral("%1-%2").arg(QCoreApplication::applicationPid()).arg(++windows);
    QDir().mkpath(folder_);
    lock_ = std::make_unique<QLockFile>(lock_path(folder_, token_));
    lock_->setStaleLockTime(0); // it is stale when its program is gone, however old
    lock_->tryLock(0);
    connect(&session_, &Session::changed, this, &Keeper::keep);
    connect(&session_, &Session::replaced, this, [this] {
        forget();
        keep();
    });
    connect(&session_, &Session::file_changed, this, &Keeper::keep);
}

Keeper::~Keeper() {
    forget();
    writer_.reset(); // writes and removes what is left to do
}

void Keeper::keep() {
    if (session_.is_clean()) return forget();
    const std::string of = session_.path().toStdString();
    const QString path =
        QString::fromStdString(file::recovery_path(folder_.toStdString(), of, token_.toStdString()));
    if (!kept_.isEmpty() && kept_ != path) forget();
    kept_ = path;
    writer_->hand_in({path.toStdString(), of, session_.installation(), {}});
}

void Keeper::forget() {
    if (kept_.isEmpty()) return;
    writer_->hand_in({kept_.toStdString(), {}, std::nullopt, {}});
    kept_.clear();
}

QStringList Keeper::left_behind() const {
    QStringList all;
    for (const std::string& one : file::recovery_files(folder_.toStdString())) {
        const QString file = QString::fromStdString(one);
        QLockFile its(lock_path(folder_, token_of(file)));
        its.setStaleLockTime(0);
        if (token_of(file) != token_ && its.tryLock(0)) all << file;
    }
    return all;
}

bool Keeper::take_up(const QString& file, QString& why) {
    auto read = file::read_recovery(file.toStdString());
    if (!read) {
        why = QString::fromStdString(wording::sentence(read.error().front()));
        return false;
    }
    session_.recover(std::move(read->installation), QString::fromStdString(read->of));
    // It goes only once the document is kept anew.
    writer_->hand_in({kept_.toStdString(), read->of, session_.installation(), file.toStdString()});
    return true;
}

void Keeper::throw_away(const QString& file) {
    (void)file::remove_recovery(file.toStdString());
}

} // namespace fl::ui
