/// @file schedule.h
/// A firing as steps, from plain profiles to a schedule that ends at a cone.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "placer/base/error.h"
#include "placer/base/units.h"
#include "placer/firing/cone.h"

namespace placer::firing {

enum class Kind { bisque, glaze };
enum class Atmosphere { oxidation, reduction };

/// What the load is like, as far as the fire is concerned. Made by job from the plan's pieces.
struct WareSummary {
  Length thickest = Length::from_mm(6);
  bool damp = false;
  bool flat_ware = false;
  bool carbon_rich = false;
  bool groggy = false;
  bool free_quartz = false;
};

/// One step: go to `target` at `rate`, then stay for `hold`.
struct Segment {
  std::string stage;  ///< "candling", "water smoking", "body reduction", ...
  Temperature target;
  Ramp rate;  ///< magnitude; the sign follows from where the kiln stands. Infinite = as it falls
  Hours hold{0};
  bool natural = false;  ///< cooling with the heat off: the kiln's own rate, `rate` is a guess
  std::vector<std::string> notes;     ///< what to do and why, plain sentences
  std::vector<std::string> cautions;  ///< safety, where this step needs it
  double carbon_monoxide = 0;         ///< percent of the dry flue gas aimed at; 0 = no reduction
  std::string limit;                  ///< why it goes no faster, "" = the profile says so
};

/// A profile of schedules/: the same shape for whatever cone. Where a step's temperature is not a
/// number it is taken from the target cone.
struct Profile {
  struct Step {
    std::string stage;
    /// °C, or degrees relative to the top ("top", "top - 100").
    std::variant<Temperature, Warming> to;
    Ramp rate;
    Hours hold{0};
    bool natural = false;
    std::vector<std::string> notes;
  };
  std::string name;         ///< its file's name without the ending: "stoneware-reduction"
  std::string description;  ///< one line for the list
  Kind kind = Kind::glaze;
  Atmosphere atmosphere = Atmosphere::oxidation;
  std::string cone;                ///< usual one
  std::vector<std::string> cones;  ///< those it suits
  std::string source;
  std::vector<Step> steps;
};

/// What the potter asks of one firing.
struct Target {
  std::variant<std::string, Temperature> end;  ///< a cone's name, or a top temperature
  ConeKind cone_kind = ConeKind::self_supporting;
};

struct Wish {
  Kind kind = Kind::glaze;
  Target target;
  Atmosphere atmosphere = Atmosphere::oxidation;
  std::string profile;  ///< name in schedules/, or "built" for the builder's own; "" = chosen
  std::optional<Temperature> top_limit;  ///< of kiln or shelves
  Hours soak{0};
  std::optional<int> most_segments;  ///< the controller holds only so many
  std::optional<Temperature> reduction_from;
  /// Start, or finish (heat off), as clock time: seconds since 1970-01-01 UTC; at most one of them.
  std::optional<long long> starts_at, ends_at;
  struct Quiet {  ///< local hours in which nothing should need doing
    Hours from{0}, to{0};
  };
  std::optional<Quiet> quiet;
  TextPos where;
};

struct Schedule {
  std::string profile;
  Wish wish;
  WareSummary ware;
  Temperature start{20};
  std::vector<Segment> segments;
  Temperature top;
  Ramp final_rate;                    ///< over the last 100 °C of the climb
  std::size_t top_segment = 0;        ///< index of the segment that ends at the top
  std::vector<std::string> remarks;   ///< each limit and choice with its reason
  std::vector<std::string> cautions;  ///< for the firing as a whole
};

/// Time one segment takes when it begins at `from`; a natural one takes its guessed rate.
/// @throws std::invalid_argument if the rate is not positive.
Hours duration(Temperature from, const Segment& segment);

/// The schedule of a profile for a wish: the target cone's temperature at the profile's final rate.
/// Refusals (a cone over the limit, reduction below self-ignition) come back as findings, and the
/// schedule is then empty.
struct Built {
  Schedule schedule;
  std::vector<Finding> findings;
};
Built schedule_from(const Profile& profile, const Wish& wish, const WareSummary& ware,
                    const ConeTable& cones);

/// Everything about a profile that cannot be fired: a climb that falls, cooling that rises, a rate
/// of zero, no step to the top, a temperature that must be °F. Empty = sound.
std::vector<Finding> check_profile(const Profile& profile);

/// The profile that suits the wish best when none is named.
/// @throws std::invalid_argument if there is no profile at all.
const Profile& choose_profile(const std::vector<Profile>& profiles, const Wish& wish,
                              const WareSummary& ware);

}  // namespace placer::firing
