#include "app/desktop/recent_books.h"

#include <QFileInfo>

namespace haylane {
namespace {

constexpr int kMost = 4;
constexpr const char* kKey = "recent_books";

}  // namespace

QStringList recent_books() {
    QStringList there;
    for (const QString& book : own_settings().value(kKey).toStringList())
        if (QFileInfo::exists(book)) there << book;
    return there;
}

void remember_book(const QString& path) {
    QStringList books = recent_books();
    const QString whole = QFileInfo(path).absoluteFilePath();
    books.removeAll(whole);
    books.prepend(whole);
    QSettings settings = own_settings();
    settings.setValue(kKey, books.mid(0, kMost));
}

}  // namespace haylane
