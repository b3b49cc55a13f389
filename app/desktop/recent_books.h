#pragma once
// The books opened last, kept with the user's own settings of this program.

#include <QString>
#include <QStringList>

namespace haylane {

// The last one first; those that are no longer there are left out.
[[nodiscard]] QStringList recent_books();
void remember_book(const QString& path);

}  // namespace haylane
