#pragma once

#include "core/base/id.h"

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <memory>
#include <utility>
#include <vector>

namespace fl {

/// Rows of one kind, sorted by id, shared between documents and never written in place: an edit makes a new
/// table that shares every other row. Comparing two tables looks at pointers first, so what an edit did not
/// touch costs nothing. A row type has a member `Id<T> id`.
template <class T>
class Table {
public:
    using Row = std::shared_ptr<const T>;
    using Rows = std::vector<Row>;

    /// Goes over the rows as `const T&`.
    class Iterator {
    public:
        using iterator_category = std::forward_iterator_tag;
        using value_type = T;
        using difference_type = std::ptrdiff_t;
        using pointer = const T*;
        using reference = const T&;

        Iterator() = default;
        explicit Iterator(typename Rows::const_iterator at)
            : at_(at) {}
        const T& operator*() const { return **at_; }
        const T* operator->() const { return at_->get(); }
        Iterator& operator++() {
            ++at_;
            return *this;
        }
        Iterator operator++(int) {
            Iterator old = *this;
            ++at_;
            return old;
        }
        bool operator==(const Iterator&) const = default;

    private:
        typename Rows::const_iterator at_;
    };

    Table()
        : rows_(none()) {}

    Iterator begin() const { return Iterator(rows_->begin()); }
    Iterator end() const { return Iterator(rows_->end()); }
    std::size_t size() const { return rows_->size(); }
    bool empty() const { return rows_->empty(); }
    /// True when both are the very same rows in memory (equality may still hold when this is false).
    bool same(const Table& other) const { return rows_ == other.rows_; }

    /// The row with this id, or null.
    const T* find(Id<T> id) const {
        auto at = lower(*rows_, id);
        return at != rows_->end() && (*at)->id == id ? at->get() : nullptr;
    }

    /// The table with `row` in place of the row of the same id, or added.
    Table with(T row) const {
        auto rows = std::make_shared<Rows>(*rows_);
        auto at = lower(*rows, row.id);
        auto made = std::make_shared<const T>(std::move(row));
        if (at != rows->end() && (*at)->id == made->id)
            *at = std::move(made);
        else
            rows->insert(at, std::move(made));
        return Table(std::move(rows));
    }

    /// The table without the row of this id (the same table if there is none).
    Table without(Id<T> id) const {
        if (!find(id)) return *this;
        auto rows = std::make_shared<Rows>(*rows_);
        rows->erase(lower(*rows, id));
        return Table(std::move(rows));
    }

    /// A table of all these rows at once; a later row of the same id replaces an earlier one.
    static Table of(std::vector<T> rows) {
        std::stable_sort(rows.begin(), rows.end(), [](const T& a, const T& b) { return a.id < b.id; });
        auto made = std::make_shared<Rows>();
        made->reserve(rows.size());
        for (T& row : rows) {
            auto shared = std::make_shared<const T>(std::move(row));
            if (!made->empty() && made->back()->id == shared->id)
                made->back() = std::move(shared);
            else
                made->push_back(std::move(shared));
        }
        return Table(std::move(made));
    }

    bool operator==(const Table& other) const {
        if (rows_ == other.rows_) return true;
        return std::equal(rows_->begin(), rows_->end(), other.rows_->begin(), other.rows_->end(),
                          [](const Row& a, const Row& b) { return a == b || *a == *b; });
    }

    /// Ids that only `after` has, that only `before` has, and whose rows differ; each sorted.
    struct Difference {
        std::vector<Id<T>> added, removed, changed;
        bool empty() const { return added.empty() && removed.empty() && changed.empty(); }
    };
    static Difference diff(const Table& before, const Table& after) {
        Difference d;
        if (before.same(after)) return d;
        auto a = before.rows_->begin(), a_end = before.rows_->end();
        auto b = after.rows_->begin(), b_end = after.rows_->end();
        while (a != a_end || b != b_end) {
            if (b == b_end || (a != a_end && (*a)->id < (*b)->id)) {
                d.removed.push_back((*a++)->id);
            } else if (a == a_end || (*b)->id < (*a)->id) {
                d.added.push_back((*b++)->id);
            } else {
                if (*a != *b && !(**a == **b)) d.changed.push_back((*a)->id);
                ++a, ++b;
            }
        }
        return d;
    }

private:
    explicit Table(std::shared_ptr<const Rows> rows)
        : rows_(std::move(rows)) {}

    static std::shared_ptr<const Rows> none() {
        static const auto empty = std::make_shared<const Rows>();
        return empty;
    }
    template <class R>
    static auto lower(R& rows, Id<T> id) {
        return std::lower_bound(rows.begin(), rows.end(), id,
                                [](const Row& row, Id<T> wanted) { return row->id < wanted; });
    }

    std::shared_ptr<const Rows> rows_; // never null
};

} // namespace fl
