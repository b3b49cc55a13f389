#include "gis/exchange/write_text_file.h"

#include <cerrno>
#include <cstring>

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

namespace haylane {

namespace {

Error unwritable(const std::filesystem::path& path, int reason) {
    return {"file_unwritable",
            fmt::format("The file cannot be written: {}.", std::strerror(reason)), path.string(),
            "Free some space or choose a folder you may write to."};
}

// 0, or the errno of what failed.
int write_all(const std::filesystem::path& path, std::string_view text) {
    const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0644);
    if (file < 0) return errno;
    int reason = 0;
    while (!text.empty() && reason == 0) {
        const ssize_t written = ::write(file, text.data(), text.size());
        if (written > 0)
            text.remove_prefix(static_cast<std::size_t>(written));
        else if (written == 0)
            reason = EIO;
        else if (errno != EINTR)
            reason = errno;
    }
    if (reason == 0 && ::fsync(file) != 0) reason = errno;
    if (::close(file) != 0 && reason == 0) reason = errno;
    return reason;
}

}  // namespace

Result<void> write_text_file(const std::filesystem::path& path, std::string_view text) {
    std::filesystem::path part = path;
    part += ".part";
    int reason = write_all(part, text);
    if (reason == 0 && std::rename(part.c_str(), path.c_str()) != 0) reason = errno;
    if (reason == 0) return {};
    std::error_code ignored;
    std::filesystem::remove(part, ignored);
    return fail(unwritable(path, reason));
}

}  // namespace haylane
