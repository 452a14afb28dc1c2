// Plans of whole studios judged from outside: by GEOS, and by what production kilns hold.
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <numbers>

#include "loading/index.h"
#include "loading/studios.h"
#include "placer/check/check.h"
#include "placer/loading/loading.h"
#include "placer/workbook/studio.h"
#include "support/geos_oracle.h"

namespace placer::loading {
namespace {

constexpr long long kNow = 1793750400;  // 2026-11-04 00:00 UTC

Batch read_batch(const std::filesystem::path& path) {
  static const workbook::Library library = workbook::read_library(PLACER_ROOT "/schedules");
  std::ifstream in{path, std::ios::binary};
  const std::string text{std::istreambuf_iterator<char>{in}, {}};
  return workbook::read_studio(text, path.filename().string(), library, kNow).studio.value().batch;
}

std::vector<std::filesystem::path> studio_files() {
  std::vector<std::filesystem::path> files{PLACER_ROOT "/demo/studio.yaml"};
  for (const auto& entry : std::filesystem::directory_iterator{PLACER_TEST_DATA "/studios"}) {
    if (entry.path().extension() == ".yaml") files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

void judge(const Batch& batch) {
  Options options;
  options.effort = Effort::quick;
  const LoadPlan planned = plan(batch, options);
  for (const Finding& finding : check::check_plan(batch, planned)) FAIL_CHECK(finding.message);
  for (const std::string& trouble : oracle::plan_troubles(batch, planned)) FAIL_CHECK(trouble);
  CHECK_FALSE(planned.firings.empty());
}

constexpr double kCubicFoot = 28316846.6;  // mm³

}  // namespace

TEST_CASE("GEOS finds nothing wrong with the plan of any studio that we keep", "[geos]") {
  for (const auto& file : studio_files()) {
    CAPTURE(file.filename());
    Batch batch = read_batch(file);
    for (PieceKind& piece : batch.pieces) piece.count = std::min(piece.count, 5);  // for time
    judge(batch);
  }
}

TEST_CASE("GEOS finds nothing wrong with the plans of 20 invented studios", "[geos]") {
  const auto seed = GENERATE(range(300U, 320U));
  CAPTURE(seed);
  Batch batch = studios::studio(seed, 4, 24);
  batch.glazes.push_back({"runny", true, {}});
  batch.pieces[0].glaze = 1;
  if (seed % 2 == 0) batch.pieces[1].wishes.side = Side::front;
  if (seed % 3 == 0) batch.pieces[2].wishes.apart = {"runny"};
  if (seed % 5 == 0) batch.pieces[3].wishes.turn_deg = 45;
  judge(batch);
}

// A pottery reports about 3000 mugs a week from a 48 cubic foot electric kiln fired daily, which is
// 9 mugs in a cubic foot in seven firings and 12 in five (a maker's page on saving kiln space).
// Mugs of 84 x 100 mm with handles of 30 mm on thin shelves: half to one and a half times that.
TEST_CASE("a large kiln full of mugs holds about what a production pottery reports") {
  Batch batch = studios::studio(1, 1, 1);
  batch.kiln.chamber = {{}, Disc{{0, 0}, 640}, {}};
  batch.kiln.height = Length::from_mm(1060);
  batch.kiln.shelves = {studios::shelf("half round", half_disc(1200), 16, 40)};
  batch.kiln.columns = {{"back", {0}, {{0, 3}, 0}, {}, {}}, {"front", {0}, {{0, -3}, 180}, {}, {}}};
  batch.kiln.posts.clear();
  studios::add_posts(batch.kiln, 10);
  const double feet = std::numbers::pi * 640 * 640 * batch.kiln.height.mm() / kCubicFoot;
  REQUIRE(feet == Approx(48).epsilon(0.02));
  batch.pieces = {studios::piece("mug", 700, studios::handled(84, 30, 18), 100)};
  Options options;
  options.effort = Effort::quick;
  const LoadPlan planned = plan(batch, options);
  int mugs = 0;
  for (const Level& level : planned.firings.at(0).levels) mugs += count_of(level.pieces);
  CAPTURE(mugs);
  CHECK(mugs / feet > 0.5 * 9);
  CHECK(mugs / feet < 1.5 * 12);
}

// One gas firing on record: 84 kg of ware on 146 kg of shelves and posts, 1 to 1.7 (a potters'
// mailing list). From half to twice that is ordinary; thin shelves are lighter.
TEST_CASE("ware and furniture weigh against each other as in a gas kiln on record") {
  const Batch batch = read_batch(PLACER_ROOT "/demo/studio.yaml");
  Options options;
  options.effort = Effort::quick;
  const LoadPlan planned = plan(batch, options);
  for (const KilnLoad& load : planned.firings) {
    const double furniture = load.furniture.kg() / load.ware.kg();
    CAPTURE(load.load, load.ware.kg(), load.furniture.kg());
    CHECK(furniture > 0.5 * 146 / 84);
    CHECK(furniture < 2.0 * 146 / 84);
  }
}

}  // namespace placer::loading
