// Why a piece was left out, and the smallest change that would let it in.
#include <catch2/catch.hpp>

#include "loading/index.h"
#include "loading/studios.h"
#include "placer/loading/loading.h"

namespace placer::loading {
namespace {

std::string all_of(const std::vector<std::string>& sentences) {
  std::string text;
  for (const std::string& sentence : sentences) text += sentence + "\n";
  return text;
}

std::string why_first(const Batch& batch) {
  Options options;
  options.effort = Effort::quick;
  const LoadPlan planned = plan(batch, options);
  REQUIRE_FALSE(planned.left_out.empty());
  const std::string text = all_of(why(batch, planned, planned.left_out[0].piece));
  CHECK(text.find(planned.left_out[0].reason) != std::string::npos);  // the same words
  return text;
}

Batch one_column() {
  Batch batch = studios::studio(2, 1, 1);
  batch.kiln.columns.resize(1);
  return batch;
}

}  // namespace

TEST_CASE("a handle too far out: so much less handle", "[why]") {
  Batch batch = one_column();
  batch.pieces = {studios::piece("pan", 1, studios::handled(424, 190, 30), 60)};
  const std::string text = why_first(batch);
  CHECK(text.find(" less handle would let it in.") != std::string::npos);
}

TEST_CASE("a platter too wide: so much less across", "[why]") {
  Batch batch = one_column();
  batch.pieces = {studios::piece("platter", 1, studios::round(436), 40)};
  const std::string text = why_first(batch);
  CHECK(text.find("What would help: 6 mm less across would let it in.") != std::string::npos);
}

TEST_CASE("no posts for the lowest shelf: what posts to get", "[why]") {
  Batch batch = one_column();
  for (PostKind& post : batch.kiln.posts) post.have = 2;
  batch.kiln.posts.resize(2);
  batch.pieces = {studios::piece("mug", 1, studios::round(80), 90)};
  const std::string text = why_first(batch);
  CHECK(text.find("3 more posts of 30 mm would let it in.") != std::string::npos);
}

TEST_CASE("a piece too tall says by how much, and no change that does not help", "[why]") {
  Batch batch = one_column();
  batch.pieces = {studios::piece("tower", 1, studios::round(100), 900)};
  const std::string text = why_first(batch);
  CHECK(text.find(" shorter.") != std::string::npos);
  CHECK(text.find("would let it in") == std::string::npos);
}

}  // namespace placer::loading
