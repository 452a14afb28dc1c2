/// Answers about a fire that was: a log judged, a probe read.
#include <fmt/format.h>

#include <cmath>

#include "placer/firing/probe.h"
#include "placer/report/report.h"
#include "report/json.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr int kLineWidth = 96;

std::string lines(const std::string& words) {
  std::string text;
  for (const std::string& line : wrapped_lines(words, kLineWidth)) text += line + "\n";
  return text;
}

Json holds_json(const std::vector<firing::Hold>& holds) {
  Json list = Json::array();
  for (const firing::Hold& hold : holds) {
    list.push_back({{"from_h", number(hold.from.count())},
                    {"to_h", number(hold.to.count())},
                    {"at_c", number(hold.at.celsius)}});
  }
  return list;
}

Json verdict_json(const firing::Verdict& verdict) {
  return {{"kind", firing::to_string(verdict.kind)},
          {"top_c", number(verdict.top.celsius)},
          {"top_at_h", number(verdict.top_at.count())},
          {"final_rate_c_per_h", number_or_null(verdict.final_rate.kelvin_per_hour)},
          {"down", verdict.down},
          {"bending", verdict.bending},
          {"same_as_plain_ramp_to_c", number_or_null(verdict.same_as_plain_ramp_to.celsius)},
          {"band_below_c", number_or_null(verdict.band_below.kelvin)},
          {"band_above_c", number_or_null(verdict.band_above.kelvin)},
          {"within_band", verdict.within_band}};
}

Json reduction_json(const std::vector<firing::ReductionSpell>& spells) {
  Json list = Json::array();
  for (const firing::ReductionSpell& spell : spells) {
    list.push_back({{"from_h", number(spell.from.count())},
                    {"to_h", number(spell.to.count())},
                    {"begins_c", number(spell.begins.celsius)},
                    {"ends_c", number(spell.ends.celsius)},
                    {"carbon_monoxide_percent", number(spell.carbon_monoxide)},
                    {"strength", firing::to_string(spell.strength)}});
  }
  return list;
}

Json against_json(const std::vector<firing::Against>& all) {
  Json list = Json::array();
  for (const firing::Against& one : all) {
    list.push_back({{"stage", one.stage},
                    {"at_c", number(one.at.celsius)},
                    {"planned_h", number(one.planned.count())},
                    {"real_h", one.real ? number(one.real->count()) : Json(nullptr)}});
  }
  return list;
}

Json outlook_json(const std::optional<firing::Outlook>& outlook) {
  if (!outlook) return nullptr;
  return {{"rate_c_per_h", number(outlook->rate.kelvin_per_hour)},
          {"needed_c", number(outlook->needed.celsius)},
          {"left_h", number_or_null(outlook->left.count())},
          {"band_h", number_or_null(outlook->band.count())},
          {"rate_to_be_on_time_c_per_h", outlook->rate_to_be_on_time
                                             ? number(outlook->rate_to_be_on_time->kelvin_per_hour)
                                             : Json(nullptr)},
          {"advice", outlook->advice}};
}

}  // namespace

std::string log_text(const firing::FiringLog& /*log*/, const firing::Judged& judged) {
  std::string text;
  for (const std::string& words : judged.words) text += lines(words);
  return text;
}

std::string log_json(const firing::FiringLog& log, const firing::Judged& judged) {
  std::vector<Finding> findings = log.findings;
  findings.insert(findings.end(), judged.findings.begin(), judged.findings.end());
  const Json answer{{"rows_used", log.rows.size()},
                    {"rows_left_out", log.left_out},
                    {"read_as", log.understood},
                    {"verdict", verdict_json(judged.verdict)},
                    {"finished", judged.finished},
                    {"late_h", judged.late ? number(judged.late->count()) : Json(nullptr)},
                    {"holds", holds_json(judged.holds)},
                    {"stalls", holds_json(judged.stalls)},
                    {"reduction", reduction_json(judged.reduction)},
                    {"against_plan", against_json(judged.against)},
                    {"outlook", outlook_json(judged.outlook)},
                    {"findings", findings_array(findings)},
                    {"words", judged.words}};
  return written(answer);
}

std::string probe_text(double millivolts, Temperature at) {
  const firing::ProbeAnswer answer = firing::read_probe(millivolts, at);
  if (!answer.reading) return answer.refused ? answer.refused->message + "\n" : "";
  const firing::ProbeReading& reading = *answer.reading;
  std::string text = fmt::format(
      "{:.0f} mV at {}: {}\n"
      "  oxygen         10^{:.2f} atm\n",
      millivolts, both_degrees(at), firing::to_string(reading.strength),
      std::log10(reading.gas.oxygen_atm));
  if (reading.gas.co_over_co2 > 1e-6) {
    text += fmt::format(
        "  CO/CO2         {:.3g}\n  H2/H2O         {:.3g}\n"
        "  CO in dry flue about {:.1f} % (CO and CO2 together taken as 12 %)\n",
        reading.gas.co_over_co2, reading.gas.h2_over_h2o, reading.carbon_monoxide_percent);
  }
  text += lines(
      "The same millivolts mean much stronger reduction in a hotter kiln: aim at a share of CO, "
      "never at fixed millivolts. Probes drift; trust the flame, the draught and your pots too.");
  text += lines(
      "Carbon monoxide has no smell: vent, keep a carbon monoxide alarm, and never reduce below "
      "760 °C / 1400 °F.");
  return text;
}

std::string probe_json(double millivolts, Temperature at) {
  const firing::ProbeAnswer answer = firing::read_probe(millivolts, at);
  Json json{{"millivolts", number(millivolts)}, {"temperature_c", number(at.celsius)}};
  if (answer.reading) {
    json["oxygen_atm"] = number(answer.reading->gas.oxygen_atm);
    json["co_over_co2"] = number(answer.reading->gas.co_over_co2);
    json["h2_over_h2o"] = number(answer.reading->gas.h2_over_h2o);
    json["carbon_monoxide_percent"] = number(answer.reading->carbon_monoxide_percent);
    json["strength"] = firing::to_string(answer.reading->strength);
  }
  return written(json);
}

}  // namespace placer::report
