// QGuiApplication keeps references to argc and argv, so they live beside it.

#include "app/papers/gui.h"

#include <array>
#include <string>

#include <QFontInfo>
#include <QGuiApplication>

namespace haylane {

struct Gui::Arguments {
    std::string name = "haylane";
    std::array<char*, 2> values{name.data(), nullptr};
    int count = 1;
};

Gui::Gui() {
    if (gui_is_ready()) return;
    if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    arguments_ = std::make_unique<Arguments>();
    application_ = std::make_unique<QGuiApplication>(arguments_->count, arguments_->values.data());
}

Gui::~Gui() = default;

bool gui_is_ready() {
    return qobject_cast<QGuiApplication*>(QCoreApplication::instance()) != nullptr;
}

// Where there is none Qt still lists names, but what it then draws, empty boxes, has no name.
bool font_is_found() { return !QFontInfo(QFont()).family().isEmpty(); }

}  // namespace haylane
