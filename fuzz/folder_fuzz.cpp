// Any bytes as a ranch folder: lines "@@ NAME" begin its files. Read, and, where a book would be
// made of it, checked as a ranch.
#include "core/ranch/check_ranch.h"
#include "fuzz/input_folder.h"
#include "gis/book/raw_rows.h"
#include "gis/book/read_folder.h"

#include <set>

namespace {

using namespace haylane;

// A name's letters, so that no file stands outside the folder.
std::string plain_name(std::string_view typed) {
    std::string name;
    for (const char c : typed.substr(0, 24)) {
        const bool good = (c >= 'a' && c <= 'z') || c == '_' || (c == '.' && !name.empty());
        if (good) name += c;
    }
    return name.empty() ? "hay.csv" : name;
}

void write_folder(const fuzz::InputFolder& folder, std::string_view input) {
    std::filesystem::remove_all(folder.path());
    std::filesystem::create_directory(folder.path());
    while (input.starts_with("@@ ")) {
        const std::size_t line = std::min(input.find('\n'), input.size());
        const std::string name = plain_name(input.substr(3, line - 3));
        input.remove_prefix(std::min(line + 1, input.size()));
        const std::size_t next = std::min(input.find("\n@@ "), input.size());
        folder.put(name, input.substr(0, next));
        input.remove_prefix(std::min(next + 1, input.size()));
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const fuzz::InputFolder folder;
    static const auto frame = Frame::centred({-103.40, 46.30});
    write_folder(folder, fuzz::view(data, size));
    const auto read = read_folder(folder.path());
    if (!read) return 0;
    RawRanch raw;
    raw.name = "Fuzz";
    for (const BookTable& table : read->tables) {
        for (const BookRow& row : table.rows) {
            raw.roles[std::string(table.role->name)].push_back(
                {row.fields, shape_in_frame(row.shape, *frame), row.read_from});
        }
    }
    [[maybe_unused]] const auto checked = check_ranch(raw);
    return 0;
}
