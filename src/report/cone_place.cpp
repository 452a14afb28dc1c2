#include "report/cone_place.h"

#include <fmt/format.h>

#include <algorithm>

#include "placer/model/cone_place.h"
#include "report/words.h"

namespace placer::report {
namespace {

const KeepOut& hole_of(const Batch& batch, int spy_hole) {
  return batch.kiln.keep_outs.at(static_cast<std::size_t>(spy_hole));
}

/// Each pack once, though two holes have it.
std::vector<const ConePack*> packs_on(const Level& level) {
  std::vector<const ConePack*> packs;
  for (const ConePack& pack : level.cones) {
    const auto known = std::find_if(packs.begin(), packs.end(), [&](const ConePack* other) {
      return other->place == pack.place;
    });
    if (known == packs.end()) {
      packs.push_back(&pack);
    } else if (pack.seen) {
      *known = &pack;  // one of them sees it
    }
  }
  return packs;
}

std::string why_out_of_sight(const Subject& subject, const KilnLoad& load, const ConePack& pack) {
  const KeepOut& hole = hole_of(subject.batch, pack.spy_hole);
  if (!levels_in_sight(subject.batch, load, pack.spy_hole).empty()) {
    return "nothing in sight of the " + hole.what + " is free";
  }
  const Band looks = looks_at(hole, subject.batch.kiln);
  return fmt::format("no shelf with room for cones stands where the {} looks, at {} to {}",
                     hole.what, length_text(Length::from_mm(looks.low), subject.inches),
                     length_text(Length::from_mm(looks.high), subject.inches));
}

}  // namespace

std::vector<ConePlace> cones_on(const Batch& batch, const Level& level) {
  std::vector<ConePlace> places;
  for (const ConePack& pack : level.cones) {
    const KeepOut& hole = hole_of(batch, pack.spy_hole);
    places.push_back(
        {&hole, eye_of(hole, batch.kiln), pack_at(pack.place), pack.place.at, pack.seen});
  }
  return places;
}

std::string cone_words(const ConePlace& place) {
  return (place.seen ? "cone pack, seen from the " : "cone pack, out of sight of the ") +
         place.hole->what;
}

int packs_for(const Batch& batch, const KilnLoad& load) {
  const auto kept = std::count_if(batch.kiln.keep_outs.begin(), batch.kiln.keep_outs.end(),
                                  [](const KeepOut& one) { return is_for_cones(one); });
  std::size_t packs = load.no_cones.size();
  for (const Level& level : load.levels) packs += packs_on(level).size();
  return std::max({static_cast<int>(kept), static_cast<int>(packs), 1});
}

std::string where_cones_go(const Subject& subject, const KilnLoad& load) {
  std::vector<std::string> seen;
  std::vector<std::string> unseen;
  std::vector<std::string> blind;  // holes that see none, with a pack of another hole beside them
  for (const Level& level : load.levels) {
    const std::string shelf = shelf_name(subject, level);
    const auto packs = packs_on(level);
    for (const ConePack& pack : level.cones) {
      const bool own = std::find(packs.begin(), packs.end(), &pack) != packs.end();
      if (pack.seen) {
        if (own) seen.push_back(shelf);
      } else if (own) {
        unseen.push_back(fmt::format("to {}, OUT OF SIGHT: {}; read it when the kiln is open",
                                     shelf, why_out_of_sight(subject, load, pack)));
      } else {
        blind.push_back("one hole sees none: " + why_out_of_sight(subject, load, pack));
      }
    }
  }
  std::string words;
  if (!seen.empty()) words = "to " + joined(seen) + ", in sight of the spy hole";
  for (const std::string& one : unseen) words += (words.empty() ? "" : "; one ") + one;
  for (const std::string& one : blind) words += "; " + one;
  for (const NoCones& none : load.no_cones) {
    words += (words.empty() ? "NO ROOM for it: " : "; no room for one more: ") + none.reason;
  }
  return words;
}

}  // namespace placer::report
