#include "gis/exchange/problem_json.h"

namespace haylane {

nlohmann::ordered_json problems_json(const Problems& problems) {
    auto list = nlohmann::ordered_json::array();
    for (const Problem& p : problems) {
        list.push_back({{"code", p.code},
                        {"severity", to_string(p.severity)},
                        {"where", p.where},
                        {"text", p.text},
                        {"remedy", p.remedy}});
    }
    return list;
}

nlohmann::ordered_json switched_off_json(const std::vector<SwitchedOff>& items) {
    auto list = nlohmann::ordered_json::array();
    for (const SwitchedOff& item : items)
        list.push_back({{"feature", item.feature}, {"because", item.because}});
    return list;
}

}  // namespace haylane
