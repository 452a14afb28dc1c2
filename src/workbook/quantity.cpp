#include "placer/workbook/quantity.h"

#include "workbook/measure.h"

namespace placer::workbook {
namespace {

std::optional<double> value(std::string_view text, Measure measure, const UsualUnits& units) {
  const QuantityOrWhy read = read_quantity(text, measure, units);
  if (!read.quantity) return std::nullopt;
  return read.quantity->value;
}

UsualUnits usual(bool inches, bool fahrenheit) {
  UsualUnits units;
  if (inches) units.length = "in";
  if (fahrenheit) units.temperature = "F";
  return units;
}

}  // namespace

std::optional<Length> read_length(std::string_view text, bool inches) {
  return read_length_or_why(text, inches).length;
}

LengthOrWhy read_length_or_why(std::string_view text, bool inches) {
  const QuantityOrWhy read = read_quantity(text, Measure::length, usual(inches, false));
  if (!read.quantity) return {std::nullopt, read.complaint};
  return {Length::from_mm(read.quantity->value), ""};
}

SizesOrWhy read_sizes(std::string_view text, bool inches) {
  const PairOrWhy read = read_pair(text, usual(inches, false));
  if (!read.pair) return {std::nullopt, read.complaint};
  return {std::pair{Length::from_mm(read.pair->first), Length::from_mm(read.pair->second)}, ""};
}

std::optional<Temperature> read_temperature(std::string_view text, bool fahrenheit) {
  const auto celsius = value(text, Measure::temperature, usual(false, fahrenheit));
  if (!celsius) return std::nullopt;
  return Temperature{*celsius};
}

std::optional<Ramp> read_ramp(std::string_view text, bool fahrenheit) {
  const auto rate = value(text, Measure::rate, usual(false, fahrenheit));
  if (!rate) return std::nullopt;
  return Ramp{*rate};
}

std::optional<Hours> read_hours(std::string_view text) {
  const auto hours = value(text, Measure::duration, {});
  if (!hours) return std::nullopt;
  return Hours{*hours};
}

std::optional<Mass> read_mass(std::string_view text) {
  const auto kg = value(text, Measure::mass, {});
  if (!kg) return std::nullopt;
  return Mass::from_kg(*kg);
}

}  // namespace placer::workbook
