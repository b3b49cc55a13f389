#include "gis/book/edit_rows.h"

#include "gis/book/book_sql.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <ogrsf_frmts.h>

namespace haylane {

namespace {

using Json = nlohmann::ordered_json;

// Where a role's rows are spoken of by name; a list holds names parted by semicolons.
struct Reference {
    const char* role;
    const char* table;
    const char* column;
    bool list = false;
};
constexpr std::array kReferences{
    Reference{"pastures", "herds", "pastures", true},
    Reference{"pastures", "moves", "pasture"},
    Reference{"pastures", "feedings", "pasture"},
    Reference{"pastures", "locks", "pasture"},
    Reference{"herds", "moves", "herd"},
    Reference{"herds", "feedings", "herd"},
    Reference{"herds", "locks", "herd"},
    Reference{"yards", "hay", "yard"},
    Reference{"hay", "feedings", "lot"},
    Reference{"hay", "feeding_bales", "lot"},
    Reference{"hay", "trials", "lot"},
    Reference{"rigs", "feedings", "rig"},
    Reference{"rigs", "trials", "rig"},
    Reference{"rigs", "locks", "rig"},
};

std::string quoted(const std::string& column) { return "\"" + column + "\""; }

std::string sql_value(const RawValue& value) {
    if (const auto* number = std::get_if<double>(&value)) return fmt::format("{}", *number);
    if (const auto* text = std::get_if<std::string>(&value)) return sql_text(*text);
    return "NULL";
}

std::string sql_shape(const decltype(RawRow::shape)& shape, const Frame& frame) {
    if (const auto* point = std::get_if<Point>(&shape)) return sql_point(frame.to_lonlat(*point));
    if (const auto* points = std::get_if<std::vector<Point>>(&shape))
        return sql_points(in_degrees(*points, frame));
    if (const auto* lines = std::get_if<MultiPolyline>(&shape)) return sql_lines(*lines, frame);
    if (const auto* areas = std::get_if<MultiPolygon>(&shape)) return sql_areas(*areas, frame);
    return "NULL";
}

// The column that names a role's rows; empty where rows have no name (moves, weather, feedings).
std::string name_column(const std::string& role) {
    static constexpr std::array kNameless{"moves", "weather", "feedings", "soil", "trials"};
    if (std::find(kNameless.begin(), kNameless.end(), role) != kNameless.end()) return {};
    const auto columns = columns_of(role);
    return columns.empty() ? std::string() : std::string(columns.front()->book);
}

bool name_wanted(const std::string& role) {
    const auto columns = columns_of(role);
    return !name_column(role).empty() && !columns.empty() && columns.front()->required;
}

class Editor {
  public:
    Editor(GDALDataset& book, const Frame& frame) : book_(book), frame_(frame) {}

    Result<void> carry_out(const RowEdit& edit) {
        if (find_role(edit.role) == nullptr)
            return fail({"unknown_role", fmt::format("There is no table {}.", edit.role),
                         book_.GetDescription(), "Nothing was changed."});
        if (edit.uuid.empty()) return add(edit);
        auto there = ask("SELECT 1 FROM " + table(edit) + row(edit));
        if (!there) return fail(there.error());
        if (there->empty())
            return fail({"row_gone", "The row is no longer in the book.", edit.role,
                         "Nothing was changed."});
        if (auto judged = forget_problems(edit); !judged) return judged;
        if (edit.take_out) {
            if (auto renamed = rename(edit, edit.into); !renamed) return renamed;
            return run("DELETE FROM " + table(edit) + row(edit));
        }
        return change(edit);
    }

  private:
    static std::string table(const RowEdit& edit) { return quoted(edit.role); }
    static std::string row(const RowEdit& edit) { return " WHERE uuid = " + sql_text(edit.uuid); }
    Result<void> run(const std::string& sql) { return run_sql(book_, sql); }
    Result<std::string> ask(const std::string& sql) { return ask_sql(book_, sql); }

    // Two rows of a role never have one name.
    Result<void> check_name(const RowEdit& edit) {
        const std::string column = name_column(edit.role);
        const auto named = column.empty() ? edit.fields.end() : edit.fields.find(column);
        const auto* name =
            named == edit.fields.end() ? nullptr : std::get_if<std::string>(&named->second);
        const bool blank = name == nullptr || name->empty();
        if (blank && name_wanted(edit.role) && (edit.uuid.empty() || named != edit.fields.end()))
            return fail({"name_missing", "A name is wanted.", edit.role, "Write one."});
        if (blank) return {};
        const auto taken =
            ask(fmt::format("SELECT 1 FROM {} WHERE {} = {} AND uuid <> {}", table(edit),
                            quoted(column), sql_text(*name), sql_text(edit.uuid)));
        if (!taken) return fail(taken.error());
        if (!taken->empty())
            return fail({"name_taken", fmt::format("There is one called {} already.", *name),
                         edit.role, "Choose another name."});
        return {};
    }

    Result<void> add(const RowEdit& edit) {
        if (auto good = check_name(edit); !good) return good;
        std::string columns = "uuid, as_entered, read_from";
        std::string values =
            fmt::format("{}, {}, {}", sql_text(new_uuid()), sql_text(entered(edit, "{}")), "NULL");
        for (const auto& [column, value] : edit.fields) {
            columns += ", " + quoted(column);
            values += ", " + sql_value(value);
        }
        if (edit.shape) {
            columns += ", geom";
            values += ", " + sql_shape(*edit.shape, frame_);
        }
        return run(fmt::format("INSERT INTO {} ({}) VALUES ({})", table(edit), columns, values));
    }

    Result<void> change(const RowEdit& edit) {
        if (auto good = check_name(edit); !good) return good;
        if (auto renamed = rename(edit, new_name(edit)); !renamed) return renamed;
        const auto was = ask("SELECT as_entered FROM " + table(edit) + row(edit));
        if (!was) return fail(was.error());
        std::string set = "as_entered = " + sql_text(entered(edit, *was));
        for (const auto& [column, value] : edit.fields)
            set += ", " + quoted(column) + " = " + sql_value(value);
        if (edit.shape) set += ", geom = " + sql_shape(*edit.shape, frame_);
        return run(fmt::format("UPDATE {} SET {}{}", table(edit), set, row(edit)));
    }

    // What was typed before, with what is typed now.
    static std::string entered(const RowEdit& edit, const std::string& was) {
        Json cells = Json::parse(was, nullptr, false);
        if (!cells.is_object()) cells = Json::object();
        for (const auto& [heading, text] : edit.typed) cells[heading] = text;
        return cells.dump(-1, ' ', false, Json::error_handler_t::replace);
    }

    Result<void> forget_problems(const RowEdit& edit) {
        return run(
            fmt::format("DELETE FROM read_problems WHERE place = (SELECT read_from FROM {}{})",
                        table(edit), row(edit)));
    }

    static std::string new_name(const RowEdit& edit) {
        const auto named = edit.fields.find(name_column(edit.role));
        const auto* now =
            named == edit.fields.end() ? nullptr : std::get_if<std::string>(&named->second);
        return now == nullptr ? std::string() : *now;
    }

    // Nothing where there is no new name, or was none.
    Result<void> rename(const RowEdit& edit, const std::string& now) {
        const std::string column = name_column(edit.role);
        if (column.empty() || now.empty()) return {};
        const auto was =
            ask(fmt::format("SELECT {} FROM {}{}", quoted(column), table(edit), row(edit)));
        if (!was) return fail(was.error());
        if (was->empty() || now == *was) return {};
        for (const Reference& reference : kReferences) {
            if (edit.role != reference.role) continue;
            const auto there =
                ask(fmt::format("SELECT 1 FROM pragma_table_info('{}') WHERE name = '{}'",
                                reference.table, reference.column));
            if (!there) return fail(there.error());
            if (there->empty()) continue;  // of an earlier form, and empty
            auto done = run(reference.list ? renamed_in_list(reference, *was, now)
                                           : fmt::format("UPDATE {0} SET {1} = {2} WHERE {1} = {3}",
                                                         reference.table, reference.column,
                                                         sql_text(now), sql_text(*was)));
            if (!done) return done;
        }
        return {};
    }

    // Names stand between semicolons, as the reader takes them, with or without blanks round them.
    static std::string renamed_in_list(const Reference& reference, const std::string& was,
                                       const std::string& now) {
        const std::string list = fmt::format(
            "(';' || replace(replace({}, '; ', ';'), ' ;', ';') || ';')", reference.column);
        return fmt::format(
            "UPDATE {} SET {} = trim(replace({}, {}, {}), ';') WHERE instr({}, {}) > 0",
            reference.table, reference.column, list, sql_text(";" + was + ";"),
            sql_text(";" + now + ";"), list, sql_text(";" + was + ";"));
    }

    GDALDataset& book_;
    const Frame& frame_;
};

}  // namespace

Result<void> edit_rows(const std::filesystem::path& book, const std::vector<RowEdit>& edits) {
    Result<DatasetPtr> opened = open_book_for_update(book);
    if (!opened) return fail(opened.error());
    const Result<Frame> frame = book_frame(**opened);
    if (!frame) return fail(frame.error());
    return in_transaction(**opened, [&]() -> Result<void> {
        Editor editor(**opened, *frame);
        for (const RowEdit& edit : edits)
            if (auto done = editor.carry_out(edit); !done) return done;
        return {};
    });
}

std::vector<RowEdit> edits_of(const std::string& role, const BookRows& rows, const Frame& frame) {
    std::vector<RowEdit> edits;
    for (const BookRow& row : rows.rows) {
        RowEdit edit{.role = role, .fields = row.fields};
        const Json cells = Json::parse(row.as_entered, nullptr, false);
        for (const auto& [heading, text] : cells.items())
            if (text.is_string()) edit.typed[heading] = text.get<std::string>();
        if (!row.shape.empty()) edit.shape = shape_in_frame(row.shape, frame);
        edits.push_back(std::move(edit));
    }
    return edits;
}

const std::vector<std::string>& tables_of_edits() {
    static const std::vector<std::string> tables = [] {
        std::vector<std::string> all{"feeding_bales", "locks", "read_problems"};
        for (const RoleInfo& role : role_infos()) all.emplace_back(role.name);
        return all;
    }();
    return tables;
}

}  // namespace haylane
