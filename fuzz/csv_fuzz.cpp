// Any bytes as a table: decoded, split into cells, and each cell read as a number.
#include "fuzz/input_folder.h"
#include "gis/vector/csv_layer.h"
#include "gis/vector/csv_table.h"
#include "gis/vector/file_text.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace haylane;
    const auto decoded = decode_text(std::string(fuzz::view(data, size)), "fuzz.csv");
    if (!decoded) return 0;
    const auto table = parse_csv(decoded->text, "fuzz.csv");
    if (!table) return 0;
    for (const CsvRow& row : table->rows) {
        if (row.cells.size() != table->header.size()) std::abort();  // what csv_table.h promises
        for (const std::string& cell : row.cells) {
            [[maybe_unused]] const auto number = parse_number(cell, table->separator == ';');
        }
    }
    return 0;
}
