/// @file heat_work.h
/// What a temperature history does to cones.
///
/// A cone is down when H = integral of A exp(-E / (R T)) dt reaches 1 (T in kelvin, t in hours,
/// R = 8.314462618 J/mol/K). E of each cone is fitted from the cone table when the model is made:
/// least squares of the temperatures at 15 and 150 °C/h with ln A anchored at the published 60, and
/// a penalty of 300 on the second differences of ln E along the cones, so that one mistyped degree
/// (2 to 3.5 % of E) does not bend the curve. For use ln A is anchored anew so that a plain ramp at
/// the history's own final rate reproduces the table's temperature there exactly.
///
/// Limits. Ramps between 15 and 150 °C/h anchored at 60 miss the published table by up to 6.6 °C;
/// anchored at their own rate by nothing, and the table itself is good to about ±7 °C. Soaks are
/// much less certain: set against potters' reports, the time in which a soak gains a cone is good
/// to a factor of 2 to 3, and those who disagree got more cone than the model says, never less.
/// Every answer carries that band. Size and set of the cone, its place in the kiln, sulphur and
/// reduction are not modelled: trust witness cones.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "placer/base/units.h"
#include "placer/firing/cone.h"

namespace placer::firing {

/// A moment of a history: straight lines between moments.
struct Reached {
  Hours at{0};
  Temperature kiln;
};
using History = std::vector<Reached>;

/// Time spent at each temperature, which is all that heat-work needs: bins of a quarter degree.
/// A million rows fit in the same few kilobytes as ten.
class TimeAtTemperature {
 public:
  static constexpr double kColdest = 300;   ///< °C
  static constexpr double kHottest = 1600;  ///< °C
  static constexpr double kBinsPerDegree = 4;

  /// Adds a straight line from one temperature to another lasting `time`. Above 1600 °C counts as
  /// 1600 and below 300 °C as nothing (no cone notices).
  void add(Temperature from, Temperature to, Hours time);
  /// Hours in each bin; bin i is about (300 + (i + 0.5) / 4) °C.
  const std::vector<double>& hours() const { return hours_; }
  static Temperature middle(std::size_t bin);

 private:
  std::vector<double> hours_;
};

enum class ConeStanding { upright, bending, down };

struct ConeState {
  std::string name;
  double heat_work = 0;  ///< 1 = tip level with the base
  double after_top = 0;  ///< part of it that came once the top was reached, in holds and cooling
  ConeStanding standing = ConeStanding::upright;
};

/// One cone's parameters, anchored.
struct Kinetics {
  const Cone* cone = nullptr;
  double activation = 0;  ///< E, J/mol
  double ln_a = 0;        ///< ln of A per hour
  /// Temperature rise that multiplies its speed by e, at `t`: R T^2 / E.
  Warming e_fold(Temperature t) const;
  /// Heat-work per hour at `t`.
  double per_hour(Temperature t) const;
  /// Heat-work of a straight line in time.
  double of_line(Temperature from, Temperature to, Hours time) const;
};

/// What a whole history did.
struct Verdict {
  ConeKind kind = ConeKind::self_supporting;
  Temperature top;
  Hours top_at{0};               ///< when the top was first reached (to 2 °C)
  Ramp final_rate;               ///< over the last 100 °C before it
  std::vector<ConeState> cones;  ///< of the kind, coolest first
  std::string down;              ///< hottest cone that is down; "" = none
  std::string bending;           ///< hottest cone that is bending; "" = none
  /// Top of a plain ramp at the final rate that would do the same to the cone next to it, and how
  /// far the truth may lie below and above: 7 °C and, of what holds and cooling gave, a factor 2.5.
  Temperature same_as_plain_ramp_to;
  Warming band_below{7}, band_above{7};
  std::vector<std::string>
      within_band;  ///< cones whose own temperature lies in that band, nearest first
};

/// The model of one cone kind. Keeps a reference to the table, which must outlive it.
class HeatWork {
 public:
  /// Fits E of every cone of the kind. Kinds with fewer than two published rates a cone, and the
  /// large ones, take E of the self-supporting cone of the same name.
  /// @throws std::invalid_argument if the table has no cone of the kind.
  explicit HeatWork(const ConeTable& table, ConeKind kind = ConeKind::self_supporting);

  ConeKind kind() const { return kind_; }
  /// Parameters of every cone, anchored so that a plain ramp at `rate` reproduces the table.
  std::vector<Kinetics> anchored(Ramp rate) const;
  /// The same of one cone. @throws std::invalid_argument for an unknown name.
  Kinetics anchored(const std::string& cone, Ramp rate) const;

  /// Top of a plain ramp at `rate` that brings the cone down, by the anchored model (for tests and
  /// for ramps at other rates than the anchor's).
  static Temperature plain_ramp_top(const Kinetics& cone, Ramp rate);

  Verdict judge(const History& history) const;
  /// @param before,after time at temperature up to the top and after it.
  Verdict judge(const TimeAtTemperature& before, const TimeAtTemperature& after, Temperature top,
                Hours top_at, Ramp final_rate) const;

 private:
  const ConeTable* table_;
  ConeKind kind_;
  std::vector<const Cone*> cones_;
  std::vector<double> activation_;  ///< J/mol, same order
};

/// Rate over the last 100 °C below the top, as potters reckon it: the middle one of the times that
/// each 4 °C took, so that a hold or a stumble on the way does not count. Nothing when no
/// time was spent there.
std::optional<Ramp> usual_rate(const TimeAtTemperature& before, Temperature top);

/// The top of a history and when it was first reached (to 2 °C).
struct Top {
  Temperature top;
  Hours at{0};
  std::size_t index = 0;  ///< first moment at the top
  Ramp final_rate{60};    ///< see usual_rate()
};
/// @throws std::invalid_argument for a history of fewer than two moments or with falling times.
Top find_top(const History& history);

/// ln of the exponential integral E2(x), x > 0.5 (continued fraction).
/// @source Abramowitz & Stegun 5.1.22
double ln_e2(double x);

/// "cone 10 is down, cone 11 is bending ..." in one or two plain sentences, with the band.
std::string in_words(const Verdict& verdict);

}  // namespace placer::firing
