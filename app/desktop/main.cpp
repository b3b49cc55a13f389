#include "app/desktop/look.h"
#include "app/desktop/main_window.h"

#include <QApplication>

int main(int argc, char** argv) {
    const QApplication application(argc, argv);
    QApplication::setApplicationName("haylane-desk");
    QApplication::setApplicationDisplayName("Haylane");
    haylane::use_warm_look();
    haylane::MainWindow window;
    window.show();
    const QStringList arguments = QApplication::arguments();
    if (arguments.size() > 1) window.open_any(arguments.at(1));
    return QApplication::exec();
}
