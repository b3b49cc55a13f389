#include "app/desktop/jobs/work.h"

namespace haylane {

void Work::begin() {
    busy_ = true;
    emit busy_changed(true);
}

void Work::end() {
    busy_ = false;
    emit busy_changed(false);
}

Progress Work::progress() {
    Progress progress;
    progress.report = [this](std::string_view, double done_ratio) {
        QMetaObject::invokeMethod(
            this, [this, done_ratio] { emit progressed(done_ratio); }, Qt::QueuedConnection);
    };
    return progress;
}

}  // namespace haylane
