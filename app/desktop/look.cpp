#include "app/desktop/look.h"

#include <QApplication>
#include <QPalette>
#include <QStyleFactory>

namespace haylane {
namespace {

QPalette warm_palette() {
    QPalette palette;
    palette.setColor(QPalette::Window, look::kGround);
    palette.setColor(QPalette::WindowText, look::kInk);
    palette.setColor(QPalette::Base, look::kPaper);
    palette.setColor(QPalette::AlternateBase, look::kGround);
    palette.setColor(QPalette::Text, look::kInk);
    palette.setColor(QPalette::PlaceholderText, look::kFadedInk);
    palette.setColor(QPalette::Button, QColor(0xe6, 0xd8, 0xbb));
    palette.setColor(QPalette::ButtonText, look::kInk);
    palette.setColor(QPalette::ToolTipBase, look::kPaper);
    palette.setColor(QPalette::ToolTipText, look::kInk);
    palette.setColor(QPalette::Highlight, look::kHay);
    palette.setColor(QPalette::HighlightedText, look::kInk);
    palette.setColor(QPalette::Link, look::kRust);
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) {
        palette.setColor(QPalette::Disabled, role, QColor(0xa0, 0x93, 0x7c));
    }
    return palette;
}

}  // namespace

void use_warm_look() {
    if (QStyle* plain = QStyleFactory::create("Fusion")) QApplication::setStyle(plain);
    QApplication::setPalette(warm_palette());
}

}  // namespace haylane
