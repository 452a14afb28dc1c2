/// A judged log in plain sentences.
#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "log_spells.h"
#include "placer/firing/words.h"

namespace placer::firing {
namespace {

std::string late_words(Hours late) {
  if (std::abs(late.count()) < 0.1) {
    return "on time";
  }
  return late.count() > 0 ? in_words(late) + " late" : in_words(Hours{-late.count()}) + " early";
}

void about_top(std::vector<std::string>& words, const Judged& judged) {
  const Verdict& v = judged.verdict;
  words.push_back(fmt::format("Top {} after {}; over the last 100 °C (180 °F) it climbed at {}.",
                              both_scales(v.top), in_words(v.top_at), both_scales(v.final_rate)));
  words.push_back("Heat-work: " + in_words(v) + ".");
  for (const ConeState& cone : v.cones) {
    if (cone.name == v.down && cone.after_top > 0.05 * cone.heat_work) {
      words.push_back(fmt::format(
          "{:.0f} % of it came after the top was reached, in holds or slow cooling; that part is "
          "good to a factor of 2 to 3.",
          100 * cone.after_top / cone.heat_work));
    }
  }
}

void about_plan(std::vector<std::string>& words, const Judged& judged) {
  Hours before{0};
  for (const Against& a : judged.against) {
    if (!a.real) {
      words.push_back(fmt::format("{}: {} planned after {}, not reached in this log.", a.stage,
                                  both_scales(a.at), in_words(a.planned)));
      continue;
    }
    const Hours late = *a.real - a.planned;
    const Hours grew = late - before;
    std::string why;
    if (grew.count() > 0.25) {
      why = fmt::format("; {} of it lost in this step", in_words(grew));
    } else if (grew.count() < -0.25) {
      why = fmt::format("; {} gained in this step", in_words(Hours{-grew.count()}));
    }
    words.push_back(fmt::format("{}: {} planned after {}, reached after {}, {}{}.", a.stage,
                                both_scales(a.at), in_words(a.planned), in_words(*a.real),
                                late_words(late), why));
    before = late;
  }
}

/// A stall is told once, and not as a hold too.
bool is_told_as_stall(const Judged& judged, const Hold& hold) {
  return std::any_of(judged.stalls.begin(), judged.stalls.end(), [&](const Hold& stall) {
    const Hours both = std::min(hold.to, stall.to) - std::max(hold.from, stall.from);
    return both.count() > 0.5 * (hold.to - hold.from).count();
  });
}

}  // namespace

std::vector<std::string> words_of(const Judged& judged, const FiringLog& log,
                                  const LogQuestion& /*question*/) {
  std::vector<std::string> words;
  words.push_back("Read: " + log.understood + ".");
  if (log.left_out > 0) {
    words.push_back(log.left_out == 1 ? std::string{"One row could not be used and was left out."}
                                      : fmt::format("{} rows could not be used and were left out.",
                                                    log.left_out));
  }
  about_top(words, judged);
  for (const Hold& hold : judged.holds) {
    if (is_told_as_stall(judged, hold)) {
      continue;
    }
    words.push_back(fmt::format("Held at about {} for {}, from {} after the start.",
                                both_scales(hold.at), in_words(hold.to - hold.from),
                                in_words(hold.from)));
  }
  for (const ReductionSpell& spell : judged.reduction) {
    words.push_back(fmt::format(
        "{}: {} from {} to {}, {} long, about {:.1f} % carbon monoxide by the probe (± a half).",
        spell.strength == Strength::light    ? "Light reduction"
        : spell.strength == Strength::medium ? "Medium reduction"
                                             : "Heavy reduction",
        in_words(spell.from), both_scales(spell.begins), both_scales(spell.ends),
        in_words(spell.to - spell.from), spell.carbon_monoxide));
  }
  about_plan(words, judged);
  if (judged.late) {
    words.push_back(fmt::format("The top was {}.", late_words(*judged.late)));
  }
  for (const Finding& finding : judged.findings) {
    std::string sentence = finding.message;
    sentence.front() =
        static_cast<char>(std::toupper(static_cast<unsigned char>(sentence.front())));
    words.push_back(sentence + ".");
  }
  if (judged.outlook) {
    words.push_back(judged.outlook->advice);
  }
  words.push_back("Trust your witness cones.");
  return words;
}

}  // namespace placer::firing
