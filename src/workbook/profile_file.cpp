#include <fmt/format.h>

#include <limits>

#include "placer/base/words.h"
#include "workbook/broken_text.h"
#include "workbook/library.h"

namespace placer::workbook {
namespace {

using Step = firing::Profile::Step;

constexpr double kUsualNaturalRate = 60;  ///< °C/h where a step of natural cooling gives no guess

class ProfileFile {
 public:
  ProfileFile(const Node& root, const std::string& name, Desk& desk) : desk_{desk} {
    profile_.name = name;
    const bool readable = words_are_known(
        root, "a profile",
        {"profile", "about", "kind", "atmosphere", "cone", "cones", "source", "steps"},
        {"profile", "about", "kind", "atmosphere", "cone", "cones", "source", "steps"}, desk);
    if (!readable) return;
    if (const Node* own = root.find("profile"); own != nullptr && own->text != name) {
      desk.mistake("name", own->where,
                   fmt::format("the profile must be called as its file: {}", name));
    }
    profile_.description = text_of(root, "about");
    profile_.source = text_of(root, "source");
    profile_.cone = text_of(root, "cone");
    profile_.kind =
        one_of(root, "kind", {"bisque", "glaze"}) == 1 ? firing::Kind::glaze : firing::Kind::bisque;
    profile_.atmosphere = one_of(root, "atmosphere", {"oxidation", "reduction"}) == 1
                              ? firing::Atmosphere::reduction
                              : firing::Atmosphere::oxidation;
    for (const Node& cone : items_of(root, "cones", desk_)) profile_.cones.push_back(cone.text);
    for (const Node& step : items_of(root, "steps", desk_)) read_step(step);
    if (profile_.steps.empty()) desk.mistake("empty", root.where, "a profile needs steps");
  }

  firing::Profile take() { return std::move(profile_); }

 private:
  std::size_t one_of(const Node& map, std::string_view key, const std::vector<std::string>& known) {
    const std::string word = text_of(map, key);
    for (std::size_t i = 0; i < known.size(); ++i) {
      if (known[i] == word) return i;
    }
    if (const Node* node = map.find(key)) {
      desk_.mistake("choice", node->where,
                    fmt::format("\"{}\" is {}, not \"{}\"", key, listed(known), shortened(word)),
                    nearest_word(word, known));
    }
    return 0;
  }

  void read_step(const Node& node) {
    if (!words_are_known(node, "a step", {"stage", "to", "rate", "guess", "hold", "notes"},
                         {"stage", "to", "rate"}, desk_)) {
      return;
    }
    Step step;
    step.stage = text_of(node, "stage");
    if (const Node* to = node.find("to")) step.to = read_to(*to);
    if (const Node* rate = node.find("rate")) read_rate(*rate, node.find("guess"), step);
    if (const Node* hold = node.find("hold")) {
      step.hold = Hours{quantity(*hold, Measure::duration, 0, 100)};
    }
    for (const Node& note : items_of(node, "notes", desk_)) {
      if (note.kind == Node::Kind::scalar) step.notes.push_back(note.text);
    }
    profile_.steps.push_back(std::move(step));
  }

  double quantity(const Node& node, Measure measure, double least, double most) {
    const QuantityOrWhy read = read_quantity(node.text, measure, desk_.units);
    if (!read.quantity || node.kind != Node::Kind::scalar) {
      desk_.mistake("number", node.where, read.complaint, read.suggestion);
      return least;
    }
    const double value = read.quantity->value;
    if (value >= least && value <= most) return value;
    desk_.mistake("range", node.where,
                  fmt::format("{} makes no sense here: from {} to {} can be", node.text,
                              understood(least, measure, desk_.units),
                              understood(most, measure, desk_.units)));
    return least;
  }

  /// "90 C", "top", "top - 100".
  std::variant<Temperature, Warming> read_to(const Node& node) {
    std::string_view text = trimmed(node.text);
    if (!text.starts_with("top"))
      return Temperature{quantity(node, Measure::temperature, 20, 1800)};
    text = trimmed(text.substr(3));
    if (text.empty()) return Warming{0};
    const char sign = text.front();
    if (text.ends_with('C')) text.remove_suffix(1);
    const auto number = plain_decimal(trimmed(text.substr(1)));
    if ((sign == '-' || sign == '+') && number && *number <= 1000) {
      return Warming{sign == '-' ? -*number : *number};
    }
    desk_.mistake("number", node.where, "relative to the top it is: top, top - 100 or top + 20");
    return Warming{0};
  }

  void read_rate(const Node& rate, const Node* guess, Step& step) {
    const std::string_view text = trimmed(rate.text);
    step.natural = text == "natural";
    if (guess != nullptr && !step.natural) {
      desk_.mistake("choice", guess->where, "a \"guess\" goes with \"rate: natural\" only");
    }
    if (step.natural) {
      step.rate = {guess == nullptr ? kUsualNaturalRate : quantity(*guess, Measure::rate, 1, 2000)};
    } else if (text == "full") {
      step.rate = {std::numeric_limits<double>::infinity()};
    } else {
      step.rate = {quantity(rate, Measure::rate, 1, 2000)};
    }
  }

  Desk& desk_;
  firing::Profile profile_;
};

}  // namespace

firing::Profile read_profile(const Node& root, const std::string& name, Desk& desk) {
  return ProfileFile{root, name, desk}.take();
}

}  // namespace placer::workbook
