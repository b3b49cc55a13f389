#pragma once
// Reads an Esri ASCII grid (.asc) into terrain, for tests only: row 0 becomes the south row,
// missing values NaN, the lower left corner (0, 0). nullopt when the file is absent or is no such
// grid.

#include "core/ranch/ranch.h"

#include <cctype>
#include <cstddef>
#include <fstream>
#include <limits>
#include <map>
#include <optional>
#include <string>

namespace haylane::test {

// `scale` is metres per unit of the file's coordinates (1 for metres).
inline std::optional<TerrainData> read_ascii_grid(const std::string& path, double scale = 1.0) {
    std::ifstream file(path);
    std::map<std::string, double> head;
    std::string word;
    for (int i = 0; i < 6 && file >> word; ++i) {
        for (char& letter : word)
            letter = static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
        file >> head[word];
    }
    if (!file || head.count("ncols") == 0 || head.count("nodata_value") == 0) return std::nullopt;
    const double cell_m = head["cellsize"] * scale;
    TerrainData data;
    data.own_cell_m = cell_m;
    data.elevation_m = Raster<float>(
        Grid{0.0, 0.0, cell_m, static_cast<int>(head["ncols"]), static_cast<int>(head["nrows"])});
    const Grid& grid = data.elevation_m.grid;
    for (int j = grid.ny - 1; j >= 0; --j) {
        for (int i = 0; i < grid.nx; ++i) {
            double value = 0.0;
            file >> value;
            data.elevation_m(i, j) = value == head["nodata_value"]
                                         ? std::numeric_limits<float>::quiet_NaN()
                                         : static_cast<float>(value);
        }
    }
    if (!file) return std::nullopt;
    return data;
}

}  // namespace haylane::test
