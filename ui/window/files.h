#pragma once

#include <QStringList>

class QWidget;

namespace fl::ui {

class Session;

/// Files this user opened or saved lately, newest first; those that are gone are left out.
QStringList recent_files();
void note_recent(const QString& path);

/// Asks for a path and opens it there; says in a box, one line a problem, what is wrong with the file.
bool open_file(Session& session, const QString& path, QWidget* window);
/// Saves under its own path, or under one asked for when it has none or `as_new`. False when given up.
bool save_file(Session& session, bool as_new, QWidget* window);
/// True when the document is saved, or the user does not want it.
bool may_leave(Session& session, QWidget* window);

} // namespace fl::ui
