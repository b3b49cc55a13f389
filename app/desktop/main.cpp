#include "app/desktop/look.h"
#include "app/desktop/main_window.h"
#include "app/papers/gui.h"

#include <cstdio>

#include <QApplication>
#include <QCommandLineParser>

int main(int argc, char** argv) {
    const QApplication application(argc, argv);
    QApplication::setApplicationName("haylane-desk");
    QApplication::setApplicationDisplayName("Haylane");
    QApplication::setApplicationVersion(HAYLANE_VERSION);
    QApplication::setDesktopFileName("haylane-desk");  // so that the window gets its icon
    QCommandLineParser parser;
    parser.addHelpOption();
    parser.addVersionOption();
    parser.addPositionalArgument("book", "Ranch book (.gpkg) or ranch folder to open.", "[BOOK]");
    parser.process(application);
    if (!haylane::font_is_found()) {
        std::fputs("error: this machine has no fonts. Install fonts-dejavu-core.\n", stderr);
        return 1;
    }
    haylane::use_warm_look();
    haylane::MainWindow window;
    window.show();
    if (const QStringList paths = parser.positionalArguments(); !paths.isEmpty())
        window.open_any(paths.first());
    return QApplication::exec();
}
