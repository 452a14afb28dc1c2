/// What the heading of a log says: many words for time, temperature and probe, in several tongues.
#include <algorithm>
#include <cctype>
#include <initializer_list>

#include "log_columns.h"

namespace placer::firing {
namespace {

std::string lower(std::string_view text) {
  std::string out{text};
  for (char& c : out) {
    c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return out;
}

bool has(const std::string& text, std::initializer_list<std::string_view> words) {
  return std::any_of(words.begin(), words.end(),
                     [&](std::string_view word) { return text.find(word) != std::string::npos; });
}

bool is(const std::string& text, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), text) != words.end();
}

// "\xb0" is the degree sign of one-byte codings.
bool says_fahrenheit(const std::string& name) {
  return has(name, {"°f",
                    "\xb0"
                    "f",
                    "fahr", "(f)", "[f]", "_f", "temp f", "degf", "deg f", "deg. f"}) ||
         name == "f";
}

bool says_celsius(const std::string& name) {
  return has(name, {"°c",
                    "\xb0"
                    "c",
                    "celsius", "(c)", "[c]", "_c", "temp c", "degc", "deg c", "deg. c"}) ||
         name == "c";
}

bool says_kelvin(const std::string& name) { return has(name, {"kelvin", "(k)", "[k]"}); }

/// What the kiln should do is not what it did.
bool is_wish(const std::string& name) {
  return has(name, {"set", "soll", "target", "program", "planned", "ziel"}) ||
         is(name, {"sp", "sv"});
}

bool is_probe(const std::string& name) { return has(name, {"mv", "millivolt", "probe", "sonde"}); }

bool is_note(const std::string& name) {
  return has(name, {"note", "remark", "comment", "bemerk", "event", "nota"});
}

bool is_date(const std::string& name) {
  return has(name, {"date", "datum", "fecha", "day"}) || name == "tag";
}

bool is_temperature(const std::string& name) {
  return says_fahrenheit(name) || says_celsius(name) || says_kelvin(name) ||
         has(name, {"temp", "kiln", "ofen", "actual", "istwert", "thermo", "chamber", "pyro",
                    "grad", "degree"}) ||
         is(name, {"t1", "tc", "tc1", "ch1", "ist", "pv", "top", "middle", "bottom"});
}

bool is_time(const std::string& name) {
  return has(name, {"time", "zeit", "hour", "uhr", "min", "sec", "sek", "elapsed", "stunde",
                    "heure", "hora", "clock", "millis"}) ||
         is(name, {"h", "s", "ms", "hr", "hrs", "std", "(h)", "(s)"});
}

TimeUnit unit_in(const std::string& name) {
  if (has(name, {"millis", "(ms)", "[ms]", " ms", "_ms"}) || name == "ms")
    return TimeUnit::milliseconds;
  if (has(name, {"(d)", "[d]", "days"})) return TimeUnit::days;
  if (has(name, {"hh:", "h:m"})) return TimeUnit::unknown;  // a clock says it with its colon
  if (has(name, {"min"})) return TimeUnit::minutes;
  if (has(name, {"sec", "sek", "(s)", "[s]", "_s"}) || name == "s") return TimeUnit::seconds;
  if (has(name, {"hour", "hrs", "(h)", "[h]", "_h", "stunde"}) || is(name, {"h", "hr", "std"}))
    return TimeUnit::hours;
  return TimeUnit::unknown;
}

void take_temperature(Columns& columns, int column, const std::string& name) {
  columns.temperature = column;
  columns.kelvin = says_kelvin(name);
  if (says_fahrenheit(name)) {
    columns.scale = Scale::fahrenheit;
  } else if (says_celsius(name)) {
    columns.scale = Scale::celsius;
  }
}

/// A column that the heading says nothing known of; -1 = none, as in a log of millivolts alone.
int first_unnamed(const Columns& columns, std::size_t count) {
  for (int i = 0; i < static_cast<int>(count); ++i) {
    if (i != columns.time && i != columns.date && i != columns.probe && i != columns.note) {
      return i;
    }
  }
  return -1;
}

}  // namespace

void read_heading(Columns& columns, const std::vector<std::string_view>& cells) {
  int time = -1;
  int temperature = -1;
  columns.sensors = 0;
  for (int i = 0; i < static_cast<int>(cells.size()); ++i) {
    std::string name = lower(bare(cells[static_cast<std::size_t>(i)]));
    name.erase(0, std::min(name.find_first_not_of("# "), name.size()));
    if (is_note(name)) {
      columns.note = i;
    } else if (is_probe(name) && !has(name, {"temp"}) && !says_celsius(name) &&
               !says_fahrenheit(name)) {
      columns.probe = i;
    } else if (is_date(name) && columns.date < 0) {
      (has(name, {"time", "zeit"}) ? time : columns.date) = i;
    } else if (is_temperature(name) && !is_wish(name) && !has(name, {"time"})) {
      ++columns.sensors;
      if (temperature < 0) {
        temperature = i;
        take_temperature(columns, i, name);
      }
    } else if (time < 0 && is_time(name)) {
      time = i;
      columns.unit = unit_in(name);
    }
  }
  if (time < 0 && columns.date >= 0) {
    time = columns.date;
    columns.date = -1;
  }
  columns.time = time >= 0 ? time : 0;
  columns.temperature = temperature >= 0 ? temperature : first_unnamed(columns, cells.size());
}

}  // namespace placer::firing
