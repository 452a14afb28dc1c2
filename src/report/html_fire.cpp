#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "placer/firing/words.h"
#include "report/fire_clock.h"
#include "report/fire_words.h"
#include "report/html.h"
#include "report/own_units.h"
#include "report/words.h"

namespace placer::report {
namespace {

class FirePart {
 public:
  FirePart(const Subject& subject, std::size_t firing)
      : subject_{subject},
        firing_{firing},
        forecast_{subject.forecasts.at(firing)},
        clock_{subject, forecast_},
        id_{fmt::format("f{}", firing + 1)} {}

  std::string section() {
    std::string text = fmt::format(
        "<section class=\"fire\" id=\"{0}-fire\" aria-labelledby=\"{0}-head {0}-fire-head\"{1}>"
        "<h3 id=\"{0}-fire-head\">Firing: {2}</h3>\n",
        id_, start_attribute(), unbroken(escaped(target())));
    if (forecast_.steps.empty()) return text + refused() + "</section>\n";
    text += start() + ends() + findings() + before_lighting() + be_there() +
            curve_svg(forecast_, subject_.inches) + cautions();
    text += "<h4>Steps</h4>\n<ol class=\"steps\">\n";
    for (std::size_t i = 0; i < forecast_.steps.size(); ++i) text += step(i);
    text += "</ol>\n<ul class=\"ticks\">\n" +
            tick_line(id_ + "-off", "OFF: checked with my own eyes", off_words()) + "</ul>\n";
    return text + "<p>This page advises; the kiln's own controls decide.</p></section>\n";
  }

 private:
  /// The planned start, for the page's script.
  std::string start_attribute() const {
    const auto start = clock_.instant(Hours{0});
    return start ? fmt::format(" data-start=\"{}\"", *start) : "";
  }

  std::string target() const {
    const firing::Schedule& schedule = forecast_.schedule;
    std::string words = both_degrees(schedule.top, subject_.inches);
    if (const auto* cone = std::get_if<std::string>(&schedule.wish.target.end)) {
      words = "cone " + *cone + ", " + words;
    }
    return schedule.wish.atmosphere == firing::Atmosphere::reduction ? words + ", in reduction"
                                                                     : words;
  }

  /// A clock time that the script moves when the real start is known.
  std::string when(Hours at) const {
    const std::string elapsed = clock_.elapsed(at);
    // To the same minute as the words beside it.
    const double hours = static_cast<double>(std::llround(at.count() * 60)) / 60;
    if (!clock_.knows_start()) {
      return fmt::format("<span class=\"clock\" data-h=\"{:.4f}\"></span> {}", hours, elapsed);
    }
    return fmt::format("<span class=\"clock\" data-h=\"{:.4f}\">{}</span> <small>{}</small>", hours,
                       clock_.day_time(at), elapsed);
  }

  std::string start() const {
    const std::string planned = clock_.knows_start()
                                    ? "Planned start " + clock_.start_words() + "."
                                    : "No start is planned: times count from the start.";
    return fmt::format(
        "<p>{0}</p>\n<p class=\"real-start js\"><label for=\"{1}-start\">When did you really "
        "start? "
        "All times follow.</label> <input type=\"datetime-local\" id=\"{1}-start\"/> "
        "<button type=\"button\" class=\"now\" data-for=\"{1}-start\">Now</button></p>\n"
        "<p class=\"js now-line\" role=\"status\"></p>\n",
        escaped(planned), id_);
  }

  std::string ends() const {
    const bool waits = forecast_.earliest_opening >= forecast_.unload;
    std::string text = fmt::format(
        "<dl class=\"ends\"><div><dt>Heat off</dt><dd>{}</dd></div>"
        "<div class=\"open\"><dt>{}</dt><dd>{}<br/>and when it reads {}. {}</dd></div>",
        when(forecast_.off), waits ? "Open and unload only after" : "Open only after",
        when(forecast_.earliest_opening),
        unbroken(escaped(opening_words(forecast_, subject_.inches))),
        escaped(cooling_band_words(forecast_)));
    if (!waits) {
      text += fmt::format("<div><dt>Unload, under 60 °C / 140 °F</dt><dd>{}</dd></div>",
                          when(forecast_.unload));
    }
    if (!forecast_.cone_band.empty()) {
      text +=
          fmt::format("<div><dt>By heat-work</dt><dd>{}.</dd></div>", escaped(forecast_.cone_band));
    }
    if (forecast_.energy) {
      text += fmt::format("<div><dt>Energy</dt><dd>about {:.0f} kWh, ± {:.0f} %{}</dd></div>",
                          forecast_.energy->kwh, forecast_.energy_band * 100, fuel_and_cost());
    }
    return text + "</dl>\n";
  }

  std::string fuel_and_cost() const {
    std::string text;
    if (forecast_.fuel_kg) text += "; " + fuel_words(forecast_);
    if (forecast_.cost) text += "; " + escaped(cost_words(forecast_));
    return text;
  }

  std::string findings() const {
    if (forecast_.findings.empty()) return "";
    std::string text = "<div class=\"look\"><h4>Look at this</h4>\n<ul>\n";
    for (const Finding& finding : forecast_.findings) {
      text += "<li>" + escaped(finding_words(finding, forecast_, clock_)) + "</li>\n";
    }
    return text + "</ul></div>\n";
  }

  std::string off_words() const {
    switch (heated_by(forecast_)) {
      case HeatedBy::electricity:
        return "at the switch";
      case HeatedBy::natural_gas:
        return "gas at the burner and at the meter";
      case HeatedBy::other_fire:
        return "fuel shut at the burner and at the source";
      case HeatedBy::unknown:
        break;
    }
    return "switch, or gas at the source";
  }

  std::string refused() const {
    return "<p><b>This firing cannot be planned as asked.</b></p>\n" + findings();
  }

  std::string before_lighting() const {
    // Clay gives off carbon monoxide in every firing, whatever heats it.
    const std::vector<std::string> all{"Spy hole clear",
                                       "Sensor in",
                                       "Cones seen",
                                       "Vent on",
                                       "Carbon monoxide alarm tested",
                                       "Nothing that burns within reach"};
    std::string text = "<h4>Before you light it</h4>\n<ul class=\"ticks\">\n";
    for (std::size_t i = 0; i < all.size(); ++i) {
      text += tick_line(fmt::format("{}-b{}", id_, i + 1), all[i], "");
    }
    return text + "</ul>\n";
  }

  /// The moments at which somebody must be at the kiln.
  std::string be_there() const {
    std::string text;
    for (const firing::Event& event : forecast_.events) {
      if (!event.hands_on) continue;
      text += fmt::format("<li>{}<br/>{}</li>\n", when(event.at), unbroken(escaped(event.what)));
    }
    return text.empty() ? "" : "<h4>Be there</h4>\n<ul class=\"moments\">\n" + text + "</ul>\n";
  }

  std::string cautions() {
    std::vector<std::string> all = cautions_of(forecast_);
    if (all.empty()) return "";
    std::string text = "<div class=\"caution\"><h4>Mind</h4>\n<ul>\n";
    for (const std::string& one : all) text += "<li>" + escaped(one) + "</li>\n";
    told_ = all;
    return text + "</ul></div>\n";
  }

  /// Degrees that stay on the line of their number.
  static std::string unbroken(std::string words) {
    for (std::size_t at = words.find(" °"); at != std::string::npos; at = words.find(" °", at)) {
      words.replace(at, 1, "\u00a0");
    }
    return words;
  }

  std::string from_to(const firing::TimedSegment& step) const {
    const bool inches = subject_.inches;
    const Temperature to = step.segment.target;
    if (std::abs((to - step.from).kelvin) < 0.5) return "stay at " + both_degrees(to, inches);
    return fmt::format("{} to {}", both_degrees(step.from, inches), both_degrees(to, inches));
  }

  std::string how_fast(const firing::TimedSegment& step) const {
    if (never_reached(step)) return "not reached";
    if (std::abs((step.segment.target - step.from).kelvin) < 0.5) return "";
    if (!std::isfinite(step.segment.rate.kelvin_per_hour)) return "as fast as it goes";
    const std::string rate = in_own_units(firing::both_scales(real_rate(step)), subject_.inches);
    return step.segment.natural ? "falls by itself, about " + rate : rate;
  }

  /// Notes, then the cautions of the step that were not told before.
  std::string notes(const firing::Segment& segment) {
    std::string text;
    for (const std::string& note : segment.notes) text += "<li>" + escaped(note) + "</li>\n";
    for (const std::string& one : segment.cautions) {
      if (std::find(told_.begin(), told_.end(), one) != told_.end()) continue;
      told_.push_back(one);
      text += "<li class=\"mind\"><b>Mind:</b> " + escaped(one) + "</li>\n";
    }
    return text.empty() ? "" : "<ul class=\"notes\">\n" + text + "</ul>\n";
  }

  std::string step(std::size_t index) {
    const firing::TimedSegment& timed = forecast_.steps[index];
    std::string pace = how_fast(timed);
    if (timed.segment.hold.count() > 0) {
      pace +=
          (pace.empty() ? "" : ", then ") + std::string{"hold "} + hours_text(timed.segment.hold);
    }
    std::string text = fmt::format(
        "<li class=\"step\" data-from-h=\"{:.4f}\" data-to-h=\"{:.4f}\" data-from-c=\"{:.1f}\" "
        "data-to-c=\"{:.1f}\"><h5>{} · {}</h5>\n<p class=\"when\">{}</p>\n",
        timed.starts.count(), timed.ends.count(), timed.from.celsius, timed.segment.target.celsius,
        index + 1, escaped(timed.segment.stage), when(timed.starts));
    text += fmt::format("<p class=\"to\">{}<br/>{}</p>\n", unbroken(from_to(timed)),
                        unbroken(escaped(pace)));
    text += notes(timed.segment);
    return text + fmt::format(
                      "<button type=\"button\" class=\"tick line\" id=\"{0}-t{1}\" "
                      "aria-pressed=\"false\" data-timed=\"yes\"><span class=\"box\" "
                      "aria-hidden=\"true\"></span><span>Step {1} done <small class=\"at\"></small>"
                      "</span></button></li>\n",
                      id_, index + 1);
  }

  const Subject& subject_;
  std::size_t firing_;
  const firing::Forecast& forecast_;
  FireClock clock_;
  std::string id_;
  std::vector<std::string> told_;  ///< cautions so far
};

}  // namespace

std::string fire_section(const Subject& subject, std::size_t firing) {
  if (firing >= subject.forecasts.size()) return "";
  return FirePart{subject, firing}.section();
}

}  // namespace placer::report
