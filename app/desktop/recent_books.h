#pragma once
// The books opened last, kept with the user's own settings of this program.

#include <QSettings>
#include <QString>
#include <QStringList>

namespace haylane {

[[nodiscard]] inline QSettings own_settings() { return QSettings("Haylane", "haylane-desk"); }

// The last one first; those that are no longer there are left out.
[[nodiscard]] QStringList recent_books();
void remember_book(const QString& path);

}  // namespace haylane
