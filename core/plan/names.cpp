#include "core/plan/names.h"

#include <array>

namespace fl::plan {

using View = std::string_view;

template <>
std::span<const View> names<From>() {
    static constexpr std::array all{View{"unknown"}, View{"assumed"},    View{"typed"},
                                    View{"label"},   View{"data sheet"}, View{"measured"}};
    return all;
}

template <>
std::span<const View> names<Kind>() {
    static constexpr std::array all{View{"battery"},      View{"alternator"},    View{"take_off_point"},
                                    View{"signal_point"}, View{"starter_motor"}, View{"drive_charger"},
                                    View{"converter"},    View{"mains_charger"}, View{"solar_controller"},
                                    View{"inverter"},     View{"load"},          View{"fuse"},
                                    View{"breaker"},      View{"switch"},        View{"relay"},
                                    View{"busbar"},       View{"fuse_box"},      View{"earth_point"},
                                    View{"shunt"},        View{"joint"},         View{"mains_boundary"},
                                    View{"isolator"},     View{"unit"}};
    return all;
}

template <>
std::span<const View> names<Origin>() {
    static constexpr std::array all{View{"new"}, View{"as_found"}, View{"moved"}, View{"removed"}};
    return all;
}

template <>
std::span<const View> names<Chemistry>() {
    static constexpr std::array all{View{"lead_flooded"}, View{"lead_agm"}, View{"lead_gel"},
                                    View{"lifepo4"}};
    return all;
}

template <>
std::span<const View> names<BatteryRole>() {
    static constexpr std::array all{View{"starter"}, View{"service"}};
    return all;
}

template <>
std::span<const View> names<BankTakeOff>() {
    static constexpr std::array all{View{"bar"}, View{"diagonal"}, View{"end"}};
    return all;
}

template <>
std::span<const View> names<Regulation>() {
    static constexpr std::array all{View{"conventional"}, View{"computer_controlled"}};
    return all;
}

template <>
std::span<const View> names<Supplied>() {
    static constexpr std::array all{View{"unknown"}, View{"live_always"}, View{"with_key"},
                                    View{"engine_running"}};
    return all;
}

template <>
std::span<const View> names<LoadLaw>() {
    static constexpr std::array all{View{"current"}, View{"power"}, View{"resistance"}};
    return all;
}

template <>
std::span<const View> names<Duty>() {
    static constexpr std::array all{View{"continuous"}, View{"short"}, View{"momentary"}};
    return all;
}

template <>
std::span<const View> names<RunsWhen>() {
    static constexpr std::array all{View{"any"}, View{"driving"}, View{"parked"}, View{"night"},
                                    View{"mains"}};
    return all;
}

template <>
std::span<const View> names<Purpose>() {
    static constexpr std::array all{View{"other"},       View{"lamp"},   View{"navigation_lamp"},
                                    View{"electronics"}, View{"fridge"}, View{"heater"},
                                    View{"motor"},       View{"pump"},   View{"bilge_pump"},
                                    View{"blower"},      View{"fan"},    View{"socket"},
                                    View{"charger"},     View{"vehicle"}};
    return all;
}

template <>
std::span<const View> names<SwitchRole>() {
    static constexpr std::array all{View{"plain"}, View{"master"}, View{"emergency_link"}};
    return all;
}

template <>
std::span<const View> names<BreakerReset>() {
    static constexpr std::array all{View{"hand"}, View{"automatic"}, View{"held_open"}, View{"electronic"}};
    return all;
}

template <>
std::span<const View> names<RelayControl>() {
    static constexpr std::array all{View{"coil"}, View{"voltage_sensing"}};
    return all;
}

template <>
std::span<const View> names<AtLimit>() {
    static constexpr std::array all{View{"constant_current"}, View{"fold_back"}, View{"hiccup"},
                                    View{"latch"}};
    return all;
}

template <>
std::span<const View> names<Polarity>() {
    static constexpr std::array all{View{"plus"}, View{"minus"}};
    return all;
}

template <>
std::span<const View> names<Role>() {
    static constexpr std::array all{View{"power"}, View{"signal"}};
    return all;
}

template <>
std::span<const View> names<Cover>() {
    static constexpr std::array all{View{"open"}, View{"sheathed"}, View{"enclosed"}};
    return all;
}

template <>
std::span<const View> names<Laid>() {
    static constexpr std::array all{View{"open_duct"}, View{"in_insulation"}, View{"free_air"}};
    return all;
}

template <>
std::span<const View> names<Engine>() {
    static constexpr std::array all{View{"off"}, View{"idle"}, View{"running"}};
    return all;
}

template <>
std::span<const View> names<AlternatorState>() {
    static constexpr std::array all{View{"off"},     View{"normal"}, View{"lean"},
                                    View{"overrun"}, View{"idle"},   View{"held"}};
    return all;
}

template <>
std::span<const View> names<Use>() {
    static constexpr std::array all{View{"highest_voltage"}, View{"lowest_voltage"}, View{"lasting_current"},
                                    View{"short_current"},   View{"standby"},        View{"charging"}};
    return all;
}

template <>
std::span<const View> names<LoadsOn>() {
    static constexpr std::array all{View{"all"},    View{"none"},  View{"driving"},
                                    View{"parked"}, View{"night"}, View{"listed"}};
    return all;
}

template <>
std::span<const View> names<ConductorTemperature>() {
    static constexpr std::array all{View{"solved"}, View{"rated"}, View{"plain_20C"}};
    return all;
}

template <>
std::span<const View> names<Subject::Kind>() {
    static constexpr std::array all{View{"component"}, View{"conductor"}, View{"place"},
                                    View{"condition"}, View{"run"},       View{"cable"}};
    return all;
}

static_assert(std::variant_size_v<Parameters> == static_cast<std::size_t>(Kind::unit) + 1);

} // namespace fl::plan
