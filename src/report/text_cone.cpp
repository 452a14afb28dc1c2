#include <fmt/format.h>

#include <cmath>

#include "placer/report/report.h"
#include "report/cone_figures.h"
#include "report/words.h"

namespace placer::report {
namespace {

/// "60 °C/h (108 °F/h)"
std::string both_rates(Ramp rate) {
  return fmt::format("{} ({:.0f} °F/h)", rate_text(rate), rate.kelvin_per_hour * 1.8);
}

/// "± 7 °C (13 °F)"
std::string band_text(Warming band) {
  return fmt::format("± {:.0f} °C ({:.0f} °F)", std::ceil(band.kelvin),
                     std::ceil(band.kelvin * 1.8));
}

std::string doubts(const firing::ConeReading& reading) {
  std::string text;
  if (reading.extrapolated) text += "  outside the published rates";
  if (reading.from_memory) text += "  from memory, no published copy seen";
  return text;
}

std::string reading_line(const std::string& label, const firing::Cone& cone, Ramp rate) {
  const firing::ConeReading reading = firing::bend_temperature(cone, rate);
  return fmt::format("  {}{}   {}{}\n", padded(label, 28), both_degrees(reading.at),
                     band_text(reading.band), doubts(reading));
}

std::string published(const firing::Cone& cone) {
  std::string text = "Published for it:\n";
  for (const firing::ConePoint& point : cone.points) {
    text += fmt::format("  at {}{}{}\n", padded(both_rates(point.rate), 25),
                        both_degrees(point.bends_at), point.from_memory ? "  from memory" : "");
  }
  return text;
}

void add_figure(std::string& text, const std::string& label,
                const std::optional<Temperature>& figure) {
  if (figure) text += fmt::format("  {}{}\n", padded(label, 44), both_degrees(*figure));
}

/// Series that share the name and mean another temperature.
std::string namesakes(const firing::ConeTable& table, const std::string& name) {
  std::string text;
  if (const auto* old = superseded_of(table, name)) {
    add_figure(text, "old one-column chart, for 150 °C/h", old->printed_for_150);
  }
  if (const auto* seger = seger_of(table, name)) {
    add_figure(text, "Seger cone, nominal (Japanese standard)", seger->nominal_jis);
    add_figure(text, "Seger cone, Berlin, normal", seger->berlin_normal);
    add_figure(text, "Seger cone, Berlin, small, 150 °C/h", seger->berlin_lab_150);
  }
  return text.empty() ? "" : "Same name, other series (do not mix them up):\n" + text;
}

constexpr const char* kTrust =
    "Rate: of the last 100 °C of the climb. A chart is a guide: witness cones beside the ware "
    "decide.\n";

}  // namespace

std::string cone_text(const firing::ConeTable& table, const firing::Cone& cone, Ramp rate) {
  const firing::ConeReading reading = firing::bend_temperature(cone, rate);
  std::string text =
      fmt::format("Cone {}, {}, at {}: {}, {}\n", cone.name, firing::to_string(cone.kind),
                  both_rates(rate), both_degrees(reading.at), band_text(reading.band));
  if (reading.extrapolated) {
    text += "This rate lies outside the published ones; the figure is the line drawn on.\n";
  }
  if (reading.from_memory)
    text += "It rests on a figure from memory: no published copy was seen.\n";
  text += published(cone);
  const auto others = other_kinds(table, cone);
  if (!others.empty()) text += "Other kinds of this cone at the same rate:\n";
  for (const firing::Cone* other : others) {
    text += reading_line(firing::to_string(other->kind), *other, rate);
  }
  return text + namesakes(table, cone.name) + kTrust;
}

namespace {

/// "1222" is met in old books: for which cone and rate it was printed, and what it is today.
std::string old_number(const firing::ConeTable& table, firing::ConeKind kind, Temperature top) {
  constexpr Ramp kPrintedFor{150};
  std::string text;
  for (const firing::ConeTable::Superseded& old : table.superseded) {
    if (std::abs((old.printed_for_150 - top).kelvin) >= 0.6) continue;
    text += fmt::format("{} was printed for cone {} at {} in a superseded chart, still quoted",
                        both_degrees(old.printed_for_150), old.name, both_rates(kPrintedFor));
    if (const firing::Cone* cone = firing::find_cone(table, old.name, kind)) {
      text += fmt::format("; today's figure at that rate is {}",
                          both_degrees(firing::bend_temperature(*cone, kPrintedFor).at));
    }
    text += ".\n";
  }
  return text;
}

}  // namespace

std::string cones_at_text(const firing::ConeTable& table, firing::ConeKind kind, Temperature top,
                          Ramp rate) {
  const firing::Cone* down = firing::cone_reached(table, kind, top, rate);
  const auto near = firing::cones_near(table, kind, top, rate);
  std::string text = fmt::format("{} at {}: ", both_degrees(top), both_rates(rate));
  if (near.empty()) {
    text += fmt::format("within the band of no {} cone", firing::to_string(kind));
  } else {
    const firing::ConeReading reading = firing::bend_temperature(*near.front(), rate);
    text += fmt::format("cone {} within its band ({}, bends at {}, {})", near.front()->name,
                        firing::to_string(kind), celsius_text(reading.at), band_text(reading.band));
  }
  text += down ? fmt::format("; cone {} is down\n", down->name) : "; no cone is down\n";
  if (!near.empty()) text += "Within the band, the nearest first:\n";
  for (const firing::Cone* cone : near) text += reading_line("cone " + cone->name, *cone, rate);
  return text + old_number(table, kind, top) + kTrust;
}

}  // namespace placer::report
