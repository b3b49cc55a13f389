#pragma once
// Names of files between Qt's text and the library's paths, whatever letters they hold.

#include <filesystem>

#include <QDir>
#include <QString>

namespace haylane {

[[nodiscard]] inline std::filesystem::path to_path(const QString& text) {
    return {text.toStdU16String()};
}

// As the user's system writes it.
[[nodiscard]] inline QString to_text(const std::filesystem::path& path) {
    return QDir::toNativeSeparators(QString::fromStdU16String(path.u16string()));
}

[[nodiscard]] inline QString file_name(const std::filesystem::path& path) {
    return to_text(path.filename());
}

}  // namespace haylane
