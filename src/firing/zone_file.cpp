/// Time zone files as RFC 8536 lays them out, and the rule line at their end.
#include <cctype>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include "placer/firing/clock.h"

namespace placer::firing {
namespace {

/// Big-endian numbers out of a file's bytes; throws instead of reading past the end.
class Bytes {
 public:
  Bytes(const std::string& bytes, const std::string& name) : bytes_{bytes}, name_{name} {}

  long long number(std::size_t width) {
    need(width);
    std::uint64_t value = 0;
    for (std::size_t i = 0; i < width; ++i) {
      value = value << 8U | static_cast<unsigned char>(bytes_[at_++]);
    }
    return width == 4 ? static_cast<std::int32_t>(static_cast<std::uint32_t>(value))
                      : static_cast<long long>(value);
  }
  std::size_t count() { return static_cast<std::size_t>(static_cast<std::uint32_t>(number(4))); }
  std::string text(std::size_t width) {
    need(width);
    at_ += width;
    return bytes_.substr(at_ - width, width);
  }
  void skip(std::size_t width) {
    need(width);
    at_ += width;
  }
  std::string rest() const { return bytes_.substr(at_); }

 private:
  void need(std::size_t width) const {
    if (width > bytes_.size() - at_) {
      throw std::runtime_error{"the time zone file of '" + name_ + "' is damaged"};
    }
  }
  const std::string& bytes_;
  const std::string& name_;
  std::size_t at_ = 0;
};

struct Counts {
  char version = 0;
  std::size_t is_utc = 0, is_standard = 0, leaps = 0, changes = 0, types = 0, letters = 0;
};

Counts read_counts(Bytes& bytes, const std::string& name) {
  if (bytes.text(4) != "TZif") {
    throw std::runtime_error{"the time zone file of '" + name + "' is damaged"};
  }
  Counts c;
  c.version = bytes.text(1)[0];
  bytes.skip(15);
  c.is_utc = bytes.count();
  c.is_standard = bytes.count();
  c.leaps = bytes.count();
  c.changes = bytes.count();
  c.types = bytes.count();
  c.letters = bytes.count();
  if (c.types == 0) {
    throw std::runtime_error{"the time zone file of '" + name + "' is damaged"};
  }
  return c;
}

std::size_t read_digits(const std::string& text, std::size_t at, int& value) {
  value = 0;
  while (at < text.size() && std::isdigit(static_cast<unsigned char>(text[at])) != 0) {
    value = std::min(value * 10 + (text[at++] - '0'), 100000);
  }
  return at;
}

/// "[+-]hh[:mm[:ss]]" in seconds.
std::size_t read_time(const std::string& text, std::size_t at, long& seconds) {
  const bool minus = at < text.size() && text[at] == '-';
  if (at < text.size() && (text[at] == '-' || text[at] == '+')) {
    ++at;
  }
  long unit = 3600;
  seconds = 0;
  while (unit > 0) {
    int part = 0;
    at = read_digits(text, at, part);
    seconds += part * unit;
    if (at >= text.size() || text[at] != ':') {
      break;
    }
    ++at;
    unit /= 60;
  }
  seconds = minus ? -seconds : seconds;
  return at;
}

std::size_t read_name(const std::string& text, std::size_t at, std::string& name) {
  if (at < text.size() && text[at] == '<') {
    const std::size_t end = text.find('>', at);
    if (end == std::string::npos) {
      return text.size();
    }
    name = text.substr(at + 1, end - at - 1);
    return end + 1;
  }
  const std::size_t begin = at;
  while (at < text.size() && std::isalpha(static_cast<unsigned char>(text[at])) != 0) {
    ++at;
  }
  name = text.substr(begin, at - begin);
  return at;
}

std::string slurp(const std::filesystem::path& path) {
  std::ifstream file{path, std::ios::binary};
  return {std::istreambuf_iterator<char>{file}, std::istreambuf_iterator<char>{}};
}

/// A zone's name may not wander about the disk.
bool sane(const std::string& name) {
  if (name.empty() || name.size() > 80 || name.front() == '/' ||
      name.find("..") != std::string::npos) {
    return false;
  }
  for (const char c : name) {
    if (std::isalnum(static_cast<unsigned char>(c)) == 0 && c != '/' && c != '_' && c != '-' &&
        c != '+') {
      return false;
    }
  }
  return true;
}

}  // namespace

std::size_t Zone::read_turn(const std::string& text, std::size_t at, Turn& turn) {
  if (at >= text.size()) {
    return at;
  }
  if (text[at] == 'M') {
    at = read_digits(text, at + 1, turn.month);
    at = read_digits(text, std::min(at + 1, text.size()), turn.week);
    at = read_digits(text, std::min(at + 1, text.size()), turn.day);
  } else {
    turn.how = text[at] == 'J' ? Turn::How::julian_day : Turn::How::day_of_year;
    at = read_digits(text, at + (text[at] == 'J' ? 1 : 0), turn.day);
  }
  if (at < text.size() && text[at] == '/') {
    at = read_time(text, at + 1, turn.second);
  }
  return at;
}

std::optional<Zone::Rule> Zone::rule_of(const std::string& text) {
  Rule rule;
  std::size_t at = read_name(text, 0, rule.standard.abbreviation);
  if (at == 0 || at >= text.size()) {
    return std::nullopt;
  }
  at = read_time(text, at, rule.standard.offset);
  rule.standard.offset = -rule.standard.offset;  // POSIX counts west of Greenwich
  if (at >= text.size()) {
    return rule;
  }
  Type summer;
  summer.daylight = true;
  at = read_name(text, at, summer.abbreviation);
  summer.offset = rule.standard.offset + 3600;
  if (at < text.size() && text[at] != ',') {
    at = read_time(text, at, summer.offset);
    summer.offset = -summer.offset;
  }
  if (at >= text.size() || text[at] != ',') {
    return std::nullopt;
  }
  at = read_turn(text, at + 1, rule.to_summer);
  if (at >= text.size() || text[at] != ',') {
    return std::nullopt;
  }
  at = read_turn(text, at + 1, rule.to_standard);
  const auto sound = [](const Turn& t) {
    return t.how != Turn::How::month_week_day ||
           (t.month >= 1 && t.month <= 12 && t.week >= 1 && t.week <= 5 && t.day <= 6);
  };
  if (at != text.size() || !sound(rule.to_summer) || !sound(rule.to_standard)) {
    return std::nullopt;
  }
  rule.summer = summer;
  return rule;
}

Zone Zone::from_bytes(const std::string& bytes, const std::string& name) {
  Bytes in{bytes, name};
  Counts c = read_counts(in, name);
  std::size_t width = 4;
  if (c.version >= '2') {  // the second block repeats the first one with 64-bit instants
    in.skip(c.changes * 5 + c.types * 6 + c.letters + c.leaps * 8 + c.is_standard + c.is_utc);
    c = read_counts(in, name);
    width = 8;
  }
  Zone zone;
  zone.name_ = name;
  for (std::size_t i = 0; i < c.changes; ++i) {
    zone.changes_.push_back(in.number(width));
  }
  const std::string after = in.text(c.changes);
  struct Raw {
    long offset;
    bool daylight;
    std::size_t letters;
  };
  std::vector<Raw> raw;
  for (std::size_t i = 0; i < c.types; ++i) {
    const auto offset = static_cast<long>(in.number(4));
    const bool daylight = in.text(1)[0] != 0;
    raw.push_back({offset, daylight, static_cast<unsigned char>(in.text(1)[0])});
  }
  const std::string letters = in.text(c.letters);
  for (const Raw& r : raw) {
    zone.types_.push_back(
        {r.offset, r.daylight, r.letters < letters.size() ? letters.c_str() + r.letters : ""});
  }
  for (const char t : after) {
    const auto type = static_cast<std::uint8_t>(t);
    if (type >= zone.types_.size()) {
      throw std::runtime_error{"the time zone file of '" + name + "' is damaged"};
    }
    zone.after_.push_back(type);
  }
  in.skip(c.leaps * (width + 4) + c.is_standard + c.is_utc);
  const std::string rest = in.rest();
  const std::size_t end = rest.find('\n', 1);
  if (rest.size() > 2 && rest[0] == '\n' && end != std::string::npos) {
    zone.rule_ = rule_of(rest.substr(1, end - 1));
  }
  return zone;
}

Zone Zone::named(const std::string& name) {
  namespace fs = std::filesystem;
  std::string wanted = name;
  if (wanted.empty()) {
    const char* set = std::getenv("TZ");
    wanted = set == nullptr ? "" : set;
    if (!wanted.empty() && wanted.front() == ':') {
      wanted.erase(0, 1);
    }
    if (wanted.empty() && fs::exists("/etc/localtime")) {
      return from_bytes(slurp("/etc/localtime"), "this machine");
    }
  }
  const fs::path path = fs::path{"/usr/share/zoneinfo"} / wanted;
  if (sane(wanted) && fs::is_regular_file(path)) {
    return from_bytes(slurp(path), wanted);
  }
  if (wanted.empty() || wanted == "UTC") {
    Zone utc;
    utc.name_ = "UTC";
    utc.types_.push_back({0, false, "UTC"});
    return utc;
  }
  if (name.empty()) {  // TZ may also hold a rule of its own
    if (auto rule = rule_of(wanted)) {
      Zone zone;
      zone.name_ = wanted;
      zone.types_.push_back(rule->standard);
      zone.changes_.push_back(-(1LL << 59));
      zone.after_.push_back(0);
      zone.rule_ = std::move(rule);
      return zone;
    }
  }
  throw std::invalid_argument{"no time zone is called '" + wanted +
                              "' here; names look like Europe/Berlin or America/Chicago"};
}

}  // namespace placer::firing
