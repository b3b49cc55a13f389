#include "gis/book/force_to_disk.h"

#include <fcntl.h>
#include <unistd.h>

namespace haylane {

bool force_to_disk(const std::filesystem::path& path) {
    const int handle = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    if (handle < 0) return false;
    const bool good = ::fsync(handle) == 0;
    ::close(handle);
    return good;
}

}  // namespace haylane
