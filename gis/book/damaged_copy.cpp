// Fields of the header that are the same in every book, or follow from the file's size, are set
// whatever they say: sqlite.org, "Database File Format", section 1.3.
#include "gis/book/damaged_copy.h"

#include "gis/book/book_sql.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <string_view>

namespace haylane {

namespace {

namespace fs = std::filesystem;

using Header = std::array<char, 100>;

void put(Header& head, std::size_t at, std::string_view bytes) {
    std::copy(bytes.begin(), bytes.end(), head.begin() + static_cast<std::ptrdiff_t>(at));
}

// 65536 is written as 1.
unsigned page_size(const Header& head) {
    const unsigned size =
        static_cast<unsigned char>(head[16]) * 256U + static_cast<unsigned char>(head[17]);
    const bool sound = size >= 512 && (size & (size - 1)) == 0;
    return size == 1 ? 65536U : sound ? size : 0U;
}

void mend_header(const fs::path& file) {
    Header head{};
    std::fstream stream(file, std::ios::in | std::ios::out | std::ios::binary);
    stream.read(head.data(), head.size());
    if (!stream) return;
    put(head, 0, std::string_view("SQLite format 3\0", 16));
    if (page_size(head) == 0) put(head, 16, std::string_view("\x10\x00", 2));  // 4096, as usual
    put(head, 18, std::string_view("\x01\x01\x00\x40\x20\x20", 6));  // rollback journal, fractions
    put(head, 44, std::string_view("\0\0\0\x04", 4));                // schema format
    put(head, 56, std::string_view("\0\0\0\x01", 4));                // UTF-8
    std::error_code code;
    const auto pages = static_cast<std::uint32_t>(fs::file_size(file, code) / page_size(head));
    for (unsigned i = 0; i < 4; ++i)
        head[28 + i] = static_cast<char>((pages >> (24U - 8U * i)) & 0xFFU);
    stream.seekp(0);
    stream.write(head.data(), head.size());
}

}  // namespace

DamagedCopy::DamagedCopy(const fs::path& fresh)
    : stem_(fs::absolute(fresh).parent_path() / ("." + new_uuid().substr(0, 8))) {}

DamagedCopy::~DamagedCopy() {
    std::error_code ignored;
    for (const fs::path& file : {copy(), draft()}) {
        for (const char* tail : {"", "-journal", "-wal", "-shm"})
            fs::remove(file.string() + tail, ignored);
    }
}

Result<void> DamagedCopy::take(const fs::path& damaged) const {
    std::error_code code;
    for (const char* tail : {"", "-journal", "-wal"}) {
        const fs::path from = damaged.string() + tail;
        const fs::path to = copy().string() + tail;
        if (!fs::exists(from, code)) continue;
        fs::copy_file(from, to, code);
        if (code) {
            return fail({"book_not_written",
                         "a copy to work on could not be made: " + code.message(), to.string(),
                         "check the disk's free space and that you may write there"});
        }
        fs::permissions(to, fs::perms::owner_read | fs::perms::owner_write, code);
    }
    mend_header(copy());
    return {};
}

}  // namespace haylane
