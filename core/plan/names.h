#pragma once

#include "core/plan/installation.h"

#include <optional>
#include <span>
#include <string_view>

/// Names of the document's enumerations, as files, fixtures and lists spell them. One array an enumeration,
/// in the order of its values.
namespace fl::plan {

/// The names of E in the order of its values.
template <class E>
std::span<const std::string_view> names();

template <class E>
std::string_view name(E value) {
    return names<E>()[static_cast<std::size_t>(value)];
}

/// The value of this name, or nothing.
template <class E>
std::optional<E> named(std::string_view text) {
    const auto all = names<E>();
    for (std::size_t i = 0; i < all.size(); ++i)
        if (all[i] == text) return static_cast<E>(i);
    return {};
}

template <>
std::span<const std::string_view> names<From>();
template <>
std::span<const std::string_view> names<Kind>();
template <>
std::span<const std::string_view> names<Origin>();
template <>
std::span<const std::string_view> names<Chemistry>();
template <>
std::span<const std::string_view> names<BatteryRole>();
template <>
std::span<const std::string_view> names<BankTakeOff>();
template <>
std::span<const std::string_view> names<Regulation>();
template <>
std::span<const std::string_view> names<Supplied>();
template <>
std::span<const std::string_view> names<LoadLaw>();
template <>
std::span<const std::string_view> names<Duty>();
template <>
std::span<const std::string_view> names<RunsWhen>();
template <>
std::span<const std::string_view> names<Purpose>();
template <>
std::span<const std::string_view> names<SwitchRole>();
template <>
std::span<const std::string_view> names<BreakerReset>();
template <>
std::span<const std::string_view> names<RelayControl>();
template <>
std::span<const std::string_view> names<AtLimit>();
template <>
std::span<const std::string_view> names<Polarity>();
template <>
std::span<const std::string_view> names<Role>();
template <>
std::span<const std::string_view> names<Cover>();
template <>
std::span<const std::string_view> names<Laid>();
template <>
std::span<const std::string_view> names<Engine>();
template <>
std::span<const std::string_view> names<AlternatorState>();
template <>
std::span<const std::string_view> names<Use>();
template <>
std::span<const std::string_view> names<LoadsOn>();
template <>
std::span<const std::string_view> names<ConductorTemperature>();
template <>
std::span<const std::string_view> names<Subject::Kind>();

} // namespace fl::plan
