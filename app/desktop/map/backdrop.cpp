#include "app/desktop/map/backdrop.h"

#include "app/desktop/recent_books.h"
#include "gis/raster/read_picture.h"

#include <QCryptographicHash>
#include <QFileInfo>
#include <QSettings>

namespace haylane {
namespace {

// A settings key cannot hold a path.
QString key_of(const QString& book) {
    const QByteArray path = QFileInfo(book).absoluteFilePath().toUtf8();
    return "backdrops/" +
           QString::fromLatin1(QCryptographicHash::hash(path, QCryptographicHash::Sha256).toHex());
}

Result<MapPicture> map_picture(const std::filesystem::path& file, const Frame& frame,
                               const Box& box, const Progress& progress) {
    const auto read = read_picture(file, frame, box, {}, progress);
    if (!read) return fail(read.error());
    // The pixels are copied: they would go with what was read.
    const QImage image = QImage(reinterpret_cast<const uchar*>(read->argb.data()), read->nx,
                                read->ny, 4 * read->nx, QImage::Format_ARGB32)
                             .convertToFormat(QImage::Format_ARGB32_Premultiplied);
    return MapPicture{image, read->at};
}

}  // namespace

Backdrop::Backdrop(QObject* parent) : QObject(parent), work_(new Work(this)) {
    connect(work_, &Work::failed, this, [this](const Error& error) {
        if (error.code != "cancelled") emit failed(error);
    });
    connect(work_, &Work::busy_changed, this, [this](bool busy) {
        if (!busy && next_) begin();
    });
}

void Backdrop::read(const std::filesystem::path& picture, const Frame& frame, const Box& box) {
    next_ = Asked{picture, frame, box};
    if (work_->busy()) {
        work_->stop();
    } else {
        begin();
    }
}

void Backdrop::stop() {
    next_.reset();
    ++serial_;
    work_->stop();
}

void Backdrop::begin() {
    const Asked asked = *next_;
    next_.reset();
    const int serial = ++serial_;
    work_->start<MapPicture>(
        "Reading the picture", asked.picture,
        [asked](const Progress& progress) {
            return map_picture(asked.picture, asked.frame, asked.box, progress);
        },
        [this, serial](const std::shared_ptr<const MapPicture>& picture) {
            if (serial == serial_) emit read_done(picture);
        });
}

QString backdrop_of(const QString& book) { return own_settings().value(key_of(book)).toString(); }

void remember_backdrop(const QString& book, const QString& picture) {
    QSettings settings = own_settings();
    if (picture.isEmpty()) {
        settings.remove(key_of(book));
    } else {
        settings.setValue(key_of(book), picture);
    }
}

}  // namespace haylane
