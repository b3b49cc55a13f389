#include "gis/exchange/xml_text.h"

namespace haylane {

std::string xml_text(const std::string& text) {
    std::string safe;
    for (const char c : text) {
        switch (c) {
            case '&':
                safe += "&amp;";
                break;
            case '<':
                safe += "&lt;";
                break;
            case '>':
                safe += "&gt;";
                break;
            case '"':
                safe += "&quot;";
                break;
            default:
                if (static_cast<unsigned char>(c) >= 0x20U) safe += c;
        }
    }
    return safe;
}

}  // namespace haylane
