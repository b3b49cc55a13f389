#pragma once
// The words that users write for each enumerated value, in the order of the manual.

#include "core/ranch/ranch.h"

#include <array>
#include <string_view>

namespace haylane {

template <class Value>
struct Word {
    std::string_view text;
    Value value;
};

inline constexpr std::array kGroundWords = {
    Word<Ground>{"meadow", Ground::meadow}, Word<Ground>{"tame", Ground::tame},
    Word<Ground>{"native", Ground::native}, Word<Ground>{"stubble", Ground::stubble},
    Word<Ground>{"other", Ground::other}};

inline constexpr std::array kOffLimitsWords = {
    Word<OffLimitsKind>{"water", OffLimitsKind::water},
    Word<OffLimitsKind>{"well", OffLimitsKind::well},
    Word<OffLimitsKind>{"building", OffLimitsKind::building},
    Word<OffLimitsKind>{"wetland", OffLimitsKind::wetland},
    Word<OffLimitsKind>{"buried_line", OffLimitsKind::buried_line},
    Word<OffLimitsKind>{"other", OffLimitsKind::other}};

inline constexpr std::array kSurfaceWords = {
    Word<Surface>{"paved", Surface::paved}, Word<Surface>{"gravel", Surface::gravel},
    Word<Surface>{"dirt", Surface::dirt}, Word<Surface>{"two_track", Surface::two_track}};

inline constexpr std::array kStageWords = {
    Word<Stage>{"dry", Stage::dry},
    Word<Stage>{"mid_gestation", Stage::mid_gestation},
    Word<Stage>{"late_gestation", Stage::late_gestation},
    Word<Stage>{"lactating", Stage::lactating},
    Word<Stage>{"first_calf_late", Stage::first_calf_late},
    Word<Stage>{"first_calf_lactating", Stage::first_calf_lactating},
    Word<Stage>{"bred_heifer", Stage::bred_heifer},
    Word<Stage>{"growing_heifer", Stage::growing_heifer},
    Word<Stage>{"bull", Stage::bull},
    Word<Stage>{"other", Stage::other}};

inline constexpr std::array kRoundToWords = {Word<RoundTo>{"bale", RoundTo::bale},
                                             Word<RoundTo>{"load", RoundTo::load}};

inline constexpr std::array kFedInWords = {Word<FedIn>{"line", FedIn::line},
                                           Word<FedIn>{"ring", FedIn::ring}};

inline constexpr std::array kHayKindWords = {
    Word<HayKind>{"alfalfa", HayKind::alfalfa}, Word<HayKind>{"native", HayKind::native},
    Word<HayKind>{"grass", HayKind::grass},     Word<HayKind>{"baleage", HayKind::baleage},
    Word<HayKind>{"straw", HayKind::straw},     Word<HayKind>{"other", HayKind::other}};

inline constexpr std::array kWrapWords = {
    Word<Wrap>{"net", Wrap::net}, Word<Wrap>{"twine", Wrap::twine}, Word<Wrap>{"none", Wrap::none}};

inline constexpr std::array kMethodWords = {Word<Method>{"unroll", Method::unroll},
                                            Word<Method>{"shred", Method::shred}};

inline constexpr std::array kLineRuleWords = {Word<LineRule>{"straight", LineRule::straight},
                                              Word<LineRule>{"wide", LineRule::wide},
                                              Word<LineRule>{"any", LineRule::any}};

inline constexpr std::array kDischargeWords = {Word<Discharge>{"left", Discharge::left},
                                               Word<Discharge>{"right", Discharge::right},
                                               Word<Discharge>{"behind", Discharge::behind}};

inline constexpr std::array kSourceWords = {
    Word<Source>{"gps", Source::gps}, Word<Source>{"entered", Source::entered},
    Word<Source>{"recalled", Source::recalled}, Word<Source>{"assumed", Source::assumed}};

}  // namespace haylane
