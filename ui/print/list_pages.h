#pragma once

#include "ui/print/blocks.h"
#include "ui/print/page.h"

#include <QString>
#include <string>
#include <vector>

namespace fl::ui::print {

/// What stands at the head and foot of each A4 page.
struct Furniture {
    QString job;     ///< head, left
    QString edition; ///< foot, left: number, date, revision
};

/// A list as A4 pages under its title; the first has the bookmark.
std::vector<Page> list_pages(const std::string& part, const QString& title, Pieces pieces,
                             const Furniture& furniture);

} // namespace fl::ui::print
