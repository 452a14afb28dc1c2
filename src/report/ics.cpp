#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "placer/firing/clock.h"
#include "placer/firing/words.h"
#include "placer/report/report.h"
#include "report/fire_clock.h"
#include "report/fire_words.h"
#include "report/words.h"

namespace placer::report {
namespace {

/// TEXT of RFC 5545, section 3.3.11: backslash, semicolon, comma and line breaks escaped; other
/// control characters have no place in it.
std::string text_value(std::string_view words) {
  std::string value;
  for (const char c : words) {
    if (c == '\\' || c == ';' || c == ',') value += '\\';
    if (c == '\n') {
      value += "\\n";
    } else if (static_cast<unsigned char>(c) >= 0x20 && c != 0x7F) {
      value += c;
    }
  }
  return value;
}

/// A content line, folded after at most 75 octets (section 3.1) and never inside a letter.
std::string line(std::string_view name, const std::string& value) {
  const std::string whole = fmt::format("{}:{}", name, value);
  std::string folded;
  std::size_t room = 75;
  std::size_t at = 0;
  while (whole.size() - at > room) {
    std::size_t cut = at + room;
    while ((static_cast<unsigned char>(whole[cut]) & 0xC0U) == 0x80U) --cut;
    folded += whole.substr(at, cut - at) + "\r\n ";
    at = cut;
    room = 74;  // the space that begins the line counts
  }
  return folded + whole.substr(at) + "\r\n";
}

/// Section 3.3.5, form 2: UTC.
std::string utc_stamp(long long seconds) {
  const firing::WallClock clock = firing::Zone::named("UTC").local(seconds).clock;
  return fmt::format("{:04}{:02}{:02}T{:02}{:02}{:02}Z", clock.year, clock.month, clock.day,
                     clock.hour, clock.minute, clock.second);
}

struct Entry {
  std::string uid;
  long long from = 0;
  long long to = 0;
  std::string summary;
  std::string description;
  bool alarm = false;
  bool busy = false;
};

/// The alarm comes last in its event: some calendars stop reading there.
std::string event(const Entry& entry, const std::string& stamp) {
  std::string text = "BEGIN:VEVENT\r\n";
  text += line("UID", entry.uid);
  text += line("DTSTAMP", stamp);
  text += line("DTSTART", utc_stamp(entry.from));
  text += line("DTEND", utc_stamp(entry.to));
  text += line("SUMMARY", text_value(entry.summary));
  if (!entry.description.empty()) text += line("DESCRIPTION", text_value(entry.description));
  text += line("TRANSP", entry.busy ? "OPAQUE" : "TRANSPARENT");
  if (entry.alarm) {
    text += "BEGIN:VALARM\r\n";
    text += line("ACTION", "DISPLAY");
    text += line("DESCRIPTION", text_value(entry.summary));
    text += line("TRIGGER", "-PT5M");
    text += "END:VALARM\r\n";
  }
  return text + "END:VEVENT\r\n";
}

/// Letters and digits of a name, for a UID that stays the same from one export to the next.
std::string plain(const std::string& words) {
  std::string out;
  for (const char c : words) {
    const bool keep = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    out += keep ? c : '-';
  }
  return out;
}

class Diary {
 public:
  Diary(const Subject& subject, std::size_t firing)
      : subject_{subject},
        firing_{firing},
        forecast_{subject.forecasts.at(firing)},
        clock_{subject, forecast_} {}

  std::string events() const {
    if (!clock_.knows_start() || forecast_.steps.empty()) return "";
    const long long start = *clock_.instant(Hours{0});
    const std::string stamp = utc_stamp(subject_.made_at != 0 ? subject_.made_at : start);
    std::string text = event(whole(start), stamp);
    int number = 1;
    for (const firing::Event& one : forecast_.events) text += event(entry(one, number++), stamp);
    for (std::size_t i = 1; i < forecast_.steps.size(); ++i) {
      if (told(forecast_.steps[i].starts) || !turned(forecast_.steps[i - 1], forecast_.steps[i]))
        continue;
      text += event(turn_up(forecast_.steps[i], i), stamp);
    }
    return text;
  }

 private:
  std::string uid(const std::string& what) const {
    return fmt::format("{}-{}-{}@placer.invalid", plain(subject_.plan.name), firing_ + 1, what);
  }
  std::string title() const {
    return fmt::format("{} ({})", firing_name(subject_, firing_), subject_.plan.name);
  }

  /// The firing as one long event that leaves the day free.
  Entry whole(long long start) const {
    Entry entry{uid("whole"), start, *clock_.instant(forecast_.off), "Kiln firing: " + title(), "",
                false,        false};
    entry.description = fmt::format(
        "To {}. Heat off about {}; open only after {} and when it reads {}.\n{}\n"
        "These times are a forecast: the kiln's own controls and the witness cones decide.",
        both_degrees(forecast_.schedule.top), clock_.day_time(forecast_.off),
        clock_.day_time(forecast_.earliest_opening), opening_words(forecast_),
        cooling_band_words(forecast_));
    return entry;
  }

  Entry entry(const firing::Event& one, int number) const {
    const long long from = *clock_.instant(one.at);
    Entry entry{uid(fmt::format("{:02}", number)),
                from,
                from + 15 * 60,
                "Kiln: " + one.what,
                title(),
                true,
                one.hands_on};
    for (const firing::TimedSegment& step : forecast_.steps) {
      if (!one.hands_on || *clock_.instant(step.starts) != from) continue;
      for (const std::string& note : step.segment.notes) entry.description += "\n" + note;
    }
    return entry;
  }

  /// A moment that the forecast names by itself.
  bool told(Hours at) const {
    const auto& all = forecast_.events;
    return std::any_of(all.begin(), all.end(), [&](const firing::Event& one) {
      return one.hands_on && one.at.count() > 0 && clock_.instant(one.at) == clock_.instant(at);
    });
  }

  /// A change that a person makes by hand on a kiln without a programme.
  static bool turned(const firing::TimedSegment& before, const firing::TimedSegment& after) {
    if (after.segment.natural || before.segment.natural) return false;
    if (after.segment.stage.find("clean-up") != std::string::npos) return false;  // told by itself
    return std::abs(before.segment.rate.kelvin_per_hour - after.segment.rate.kelvin_per_hour) >= 1;
  }

  Entry turn_up(const firing::TimedSegment& step, std::size_t index) const {
    const long long from = *clock_.instant(step.starts);
    const bool falls = step.segment.target < step.from;
    const bool faster = step.segment.rate > forecast_.steps[index - 1].segment.rate;
    const char* how = falls ? "let it fall, heated, at" : faster ? "turn up to" : "turn down to";
    Entry entry{
        uid(fmt::format("step-{:02}", index + 1)), from, from + 15 * 60, "", "", true, false};
    entry.summary = fmt::format("Kiln: {} {} ({})", how, firing::both_scales(step.segment.rate),
                                step.segment.stage);
    entry.description = fmt::format("{}\nAbout {}, on to {}.", title(), both_degrees(step.from),
                                    both_degrees(step.segment.target));
    for (const std::string& note : step.segment.notes) entry.description += "\n" + note;
    return entry;
  }

  const Subject& subject_;
  std::size_t firing_;
  const firing::Forecast& forecast_;
  FireClock clock_;
};

}  // namespace

std::string diary_ics(const Subject& subject) {
  std::string text = "BEGIN:VCALENDAR\r\n";
  text += line("VERSION", "2.0");
  text += line("PRODID", "-//placer//kiln diary//EN");
  text += line("CALSCALE", "GREGORIAN");
  text += line("METHOD", "PUBLISH");
  std::string events;
  for (std::size_t i = 0; i < subject.forecasts.size(); ++i) events += Diary{subject, i}.events();
  if (events.empty()) return "";  // a calendar without an event is no calendar (section 3.6)
  return text + events + "END:VCALENDAR\r\n";
}

}  // namespace placer::report
