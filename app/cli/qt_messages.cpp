// The note comes in Qt's category "default", as nearly all its warnings do, so a filter by category
// would hide those too; its opening words tell it apart. Qt ends the program after a fatal message
// whatever the handler does.

#include "app/cli/qt_messages.h"

#include <cstdio>

#include <QMessageLogger>
#include <QString>
#include <fmt/format.h>

namespace haylane {

namespace {

void print_message(QtMsgType type, const QMessageLogContext& context, const QString& message) {
    if (message.startsWith(QLatin1String("QStandardPaths: XDG_RUNTIME_DIR not set"))) return;
    fmt::print(stderr, "{}\n", qFormatLogMessage(type, context, message).toStdString());
}

}  // namespace

void leave_out_runtime_dir_note() { qInstallMessageHandler(print_message); }

}  // namespace haylane
