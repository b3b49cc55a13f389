#pragma once
// Rows on their way from a folder into a book: book columns in SI, shapes in degrees, what was
// typed.

#include "core/base/problem.h"
#include "core/ranch/raw_ranch.h"
#include "gis/book/roles.h"
#include "gis/vector/layer.h"

#include <map>
#include <string>
#include <vector>

namespace haylane {

struct BookRow {
    std::map<std::string, RawValue> fields;  // by book column; blank cells are absent
    LonLatShape shape;                       // of one kind, as the role wants
    std::string as_entered;                  // JSON object: the file's own headings and cells
    std::string read_from;                   // "hay.csv, line 3"
};

struct BookTable {
    const RoleInfo* role = nullptr;
    std::vector<BookRow> rows;
};

}  // namespace haylane
