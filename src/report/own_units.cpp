#include "report/own_units.h"

#include <fmt/format.h>

#include <algorithm>
#include <regex>

#include "placer/model/tower.h"
#include "report/words.h"

namespace placer::report {
namespace {

/// What `made` says of each match, the rest as it stands.
template <class Made>
std::string replaced(const std::string& words, const std::regex& pattern, const Made& made) {
  std::string out;
  auto from = words.begin();
  for (std::sregex_iterator it{words.begin(), words.end(), pattern}, none; it != none; ++it) {
    out.append(from, (*it)[0].first);
    out += made(*it);
    from = (*it)[0].second;
  }
  return out.append(from, words.end());
}

std::string fahrenheit_first(const std::string& words) {
  static const std::regex both{
      R"(([-+]?\d[\d.]*(?: to [-+]?\d[\d.]*)?) °C(/h)? \(([-+]?\d[\d.]*(?: to [-+]?\d[\d.]*)?) °F(/h)?\))"};
  return replaced(words, both, [](const std::smatch& m) {
    return fmt::format("{} °F{} ({} °C{})", m.str(3), m.str(4), m.str(1), m.str(2));
  });
}

std::string inches_first(const std::string& words) {
  // One length, or two with one unit between them; perhaps with its inches behind it already.
  static const std::regex lengths{
      R"((?:(\d+(?:\.\d+)?) (x|to|or) )?\b(\d+(?:\.\d+)?) mm(?: \(([\d /]+ in)\))?(?![a-z²³]))"};
  return replaced(words, lengths, [](const std::smatch& m) {
    const auto inches = [](const std::string& mm) {
      return inches_text(Length::from_mm(std::stod(mm)));
    };
    const std::string last = m[4].matched ? m.str(4) : inches(m.str(3));
    if (!m[1].matched) {
      const std::string mm = length_text(Length::from_mm(std::stod(m.str(3))));
      return fmt::format("{} ({})", last, mm);
    }
    std::string first = inches(m.str(1));
    first.resize(first.size() - 3);  // the unit is said once, at the end
    return fmt::format("{} {} {} ({} {} {} mm)", first, m.str(2), last, m.str(1), m.str(2),
                       m.str(3));
  });
}

std::string pounds_first(const std::string& words) {
  static const std::regex mass{R"(\b(\d+(?:\.\d+)?) kg\b)"};
  return replaced(words, mass, [](const std::smatch& m) {
    return kilos_text(Mass::from_kg(std::stod(m.str(1))), true);
  });
}

bool digit_at(const std::string& words, std::size_t at) {
  return at < words.size() && words[at] >= '0' && words[at] <= '9';
}

// Not where the number goes on: "shelf 1" is no part of "shelf 12".
void replace_all(std::string& words, const std::string& what, const std::string& by) {
  for (std::size_t at = words.find(what); at != std::string::npos; at = words.find(what, at)) {
    if (digit_at(words, at + what.size())) {
      at += what.size();
      continue;
    }
    words.replace(at, what.size(), by);
    at += by.size();
  }
}

}  // namespace

std::string in_own_units(const std::string& words, bool inches) {
  if (!inches) return words;
  std::string out;
  for (std::size_t from = 0, part = 0; from <= words.size(); ++part) {
    const std::size_t quote = std::min(words.find('"', from), words.size());
    const std::string some = words.substr(from, quote - from);
    const bool quoted = part % 2 == 1 && quote < words.size();
    out += quoted ? some : pounds_first(inches_first(fahrenheit_first(some)));
    if (quote < words.size()) out += '"';
    from = quote + 1;
  }
  return out;
}

std::string with_names_of_sheets(const Batch& batch, const LoadPlan& plan, std::string words) {
  if (words.find(" load ") == std::string::npos) return words;
  const std::vector<firing::Forecast> none;
  const Subject subject{batch, plan, none, "", ""};
  for (std::size_t i = 0; i < plan.firings.size(); ++i) {
    const KilnLoad& load = plan.firings[i];
    const std::string& name = batch.loads.at(static_cast<std::size_t>(load.load)).name;
    for (const Level& level : load.levels) {
      const std::string& column = place_name(batch.kiln, level);
      replace_all(words,
                  fmt::format("{} load {}, {}, shelf {}", name, load.round, column, level.level),
                  fmt::format("{}, {}", firing_name(subject, i), shelf_name(subject, level)));
    }
    replace_all(words, fmt::format("{} load {} stands", name, load.round),
                firing_name(subject, i) + " stands");
  }
  return words;
}

std::string as_read(const Subject& subject, const std::string& words) {
  return in_own_units(with_names_of_sheets(subject.batch, subject.plan, words), subject.inches);
}

void put_as_read(const Batch& batch, bool inches, LoadPlan& plan) {
  const auto put = [&](std::string& words) {
    words = in_own_units(with_names_of_sheets(batch, plan, words), inches);
  };
  for (std::string& remark : plan.remarks) put(remark);
  for (Ungranted& wish : plan.ungranted) put(wish.reason);
  for (LeftOut& out : plan.left_out) put(out.reason);
  for (KilnLoad& load : plan.firings) {
    for (NoCones& none : load.no_cones) put(none.reason);
  }
}

void put_as_read(bool fahrenheit, firing::Forecast& forecast) {
  if (!fahrenheit) return;
  const auto put = [](std::string& words) { words = in_own_units(words, true); };
  const auto put_all = [&](std::vector<std::string>& all) {
    for (std::string& words : all) put(words);
  };
  for (firing::TimedSegment& step : forecast.steps) {
    step.segment.stage = replaced(step.segment.stage, std::regex{R"(\b573 °C)"},
                                  [](const std::smatch&) { return "1063 °F"; });
    put_all(step.segment.notes);
    put_all(step.segment.cautions);
  }
  for (firing::Event& event : forecast.events) put(event.what);
  for (Finding& finding : forecast.findings) put(finding.message);
  put_all(forecast.schedule.remarks);
  put_all(forecast.schedule.cautions);
  put_all(forecast.cautions);
  put(forecast.cone_band);
  put(forecast.open_why);
}

}  // namespace placer::report
