#include "placer/check/check.h"

#include <fmt/format.h>

#include <cmath>
#include <utility>

#include "check/rules.h"

namespace placer::check {

void add(Findings& findings, std::string code, std::string message) {
  findings.push_back({Severity::mistake, std::move(code), std::move(message), {}, std::nullopt});
}

TwoLengths two_lengths(double is_mm, double asked_mm) {
  const double off = std::abs(is_mm - asked_mm);
  int decimals = 1;
  while (decimals < 9 && off < std::pow(10, -decimals)) ++decimals;
  const auto words = [decimals](double mm) {
    std::string digits = fmt::format("{:.{}f}", mm, decimals);
    digits.erase(digits.find_last_not_of('0') + 1);
    if (digits.back() == '.') digits.pop_back();
    return (digits == "-0" ? "0" : digits) + " mm";
  };
  return {words(is_mm), words(asked_mm)};
}

std::vector<Finding> check_plan(const Batch& batch, const LoadPlan& plan) {
  Findings findings;
  check_sound(batch, plan, findings);
  if (!findings.empty()) return findings;
  check_rounds(batch, plan, findings);
  check_counts(batch, plan, findings);
  check_furniture(batch, plan, findings);
  check_claims(batch, plan, findings);
  check_wishes_across(batch, plan, findings);
  for (const KilnLoad& load : plan.firings) {
    const View view{batch, load};
    check_levels(view, findings);
    check_masses(view, findings);
    check_posts(view, findings);
    check_shelves(view, findings);
    check_stacks(view, findings);
    check_pieces(view, findings);
    check_heights(view, findings);
    check_cones(view, findings);
    check_wishes(view, plan, findings);
  }
  return findings;
}

}  // namespace placer::check
