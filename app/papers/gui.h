#pragma once
// Keeps the one Qt application object that fonts and painting need. A program without windows makes
// one Gui in main before it writes papers; where an application object is already there (the
// desktop), this does nothing. Sets QT_QPA_PLATFORM=offscreen unless it is set.

#include <memory>

class QGuiApplication;

namespace haylane {

class Gui {
  public:
    Gui();
    ~Gui();
    Gui(const Gui&) = delete;
    Gui& operator=(const Gui&) = delete;
    Gui(Gui&&) = delete;
    Gui& operator=(Gui&&) = delete;

  private:
    struct Arguments;
    std::unique_ptr<Arguments> arguments_;  // must outlive the application
    std::unique_ptr<QGuiApplication> application_;
};

// True when there is an application object.
[[nodiscard]] bool gui_is_ready();
// True when there is a font to write with. Needs the application object.
[[nodiscard]] bool font_is_found();

}  // namespace haylane
