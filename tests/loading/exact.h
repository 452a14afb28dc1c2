/// @file exact.h
/// The best plan of a small load by an exact solver for whole-number programs (CBC), from the
/// batch's numbers alone.
#pragma once

#include <coin/Cbc_C_Interface.h>

#include <optional>
#include <string>
#include <vector>

#include "loading/exhaustive.h"

namespace placer::small_loads {

/// Rows and columns of a whole-number program; minimises.
class Program {
 public:
  int whole(double low, double high, double cost = 0) { return add(low, high, cost, true); }
  int real(double low, double high) { return add(low, high, 0, false); }
  struct Term {
    int column;
    double times;
  };
  /// sum of terms <= limit
  void most(std::vector<Term> terms, double limit) { row(std::move(terms), 'L', limit); }
  void same(std::vector<Term> terms, double value) { row(std::move(terms), 'E', value); }

  /// The least cost; nullopt when nothing holds or `most_nodes` did not prove it.
  std::optional<double> solve(int most_nodes) {
    Cbc_Model* model = Cbc_newModel();
    Cbc_setLogLevel(model, 0);
    Cbc_setParameter(model, "log", "0");
    Cbc_setMaximumNodes(model, most_nodes);
    Cbc_loadProblem(model, static_cast<int>(low_.size()), 0, nullptr, nullptr, nullptr, low_.data(),
                    high_.data(), cost_.data(), nullptr, nullptr);
    for (std::size_t i = 0; i < low_.size(); ++i) {
      if (whole_[i] != 0) Cbc_setInteger(model, static_cast<int>(i));
    }
    for (const Row& row : rows_) {
      std::vector<int> columns;
      std::vector<double> times;
      for (const Term& term : row.terms) {
        columns.push_back(term.column);
        times.push_back(term.times);
      }
      Cbc_addRow(model, "", static_cast<int>(columns.size()), columns.data(), times.data(),
                 row.sense, row.limit);
    }
    Cbc_solve(model);
    std::optional<double> cost;
    if (Cbc_isProvenOptimal(model) != 0) cost = Cbc_getObjValue(model);
    Cbc_deleteModel(model);
    return cost;
  }

 private:
  struct Row {
    std::vector<Term> terms;
    char sense;
    double limit;
  };
  int add(double low, double high, double cost, bool is_whole) {
    low_.push_back(low);
    high_.push_back(high);
    cost_.push_back(cost);
    whole_.push_back(is_whole ? 1 : 0);
    return static_cast<int>(low_.size()) - 1;
  }
  void row(std::vector<Term> terms, char sense, double limit) {
    rows_.push_back({std::move(terms), sense, limit});
  }
  std::vector<double> low_, high_, cost_;
  std::vector<char> whole_;
  std::vector<Row> rows_;
};

/// Every height that one post may have, of up to three parts, with how many of each kind it takes.
struct Way {
  double height = 0;
  std::vector<int> parts;
};

inline std::vector<Way> ways_of(const Kiln& kiln) {
  std::vector<Way> ways;
  const auto kinds = kiln.posts.size();
  const auto add = [&](std::vector<std::size_t> of) {
    Way way{0, std::vector<int>(kinds)};
    for (const std::size_t k : of) {
      way.height += kiln.posts[k].height.mm();
      ++way.parts[k];
    }
    ways.push_back(std::move(way));
  };
  for (std::size_t a = 0; a < kinds; ++a) {
    add({a});
    for (std::size_t b = a; b < kinds; ++b) {
      add({a, b});
      for (std::size_t c = b; c < kinds; ++c) add({a, b, c});
    }
  }
  return ways;
}

/// The program: levels from the bottom up in every column of every firing, the posts that carry
/// each next shelf, whole numbers of pieces in each row.
class ExactLoad {
 public:
  ExactLoad(const Small& small, int firings) : small_{small}, ways_{ways_of(kiln())} {
    for (const PieceKind& piece : small.batch.pieces)
      set_.emplace_back(), count_.push_back(piece.count);
    for (int f = 0; f < firings; ++f) add_firing();
    for (std::size_t s = 0; s < set_.size(); ++s) program_.same(set_[s], count_[s]);
  }

  std::optional<Best> solve(int most_nodes) {
    const auto cost = program_.solve(most_nodes);
    if (!cost) return std::nullopt;
    const auto whole = std::llround(*cost);
    return Best{static_cast<int>(whole / kFiring), static_cast<int>(whole % kFiring)};
  }

 private:
  static constexpr int kFiring = 1000;
  static constexpr double kMm = 1000;  // thousandths
  using Terms = std::vector<Program::Term>;
  const Kiln& kiln() const { return small_.batch.kiln; }
  double air() const { return clearances(small_.batch.rules, small_.batch.loads[0].kind).air.mm(); }

  /// Posts of one height under a shelf: as many of each way as make three, or none.
  struct Posts {
    Terms height;             // mm, of one post, when they stand
    std::vector<Terms> used;  // of each kind
  };
  Posts add_posts(int stands) {
    Posts posts;
    posts.used.resize(kiln().posts.size());
    Terms one;
    for (std::size_t w = 0; w < ways_.size(); ++w) {
      bool first = true;
      for (std::size_t v = 0; v < w; ++v) first = first && ways_[v].height != ways_[w].height;
      if (!first) continue;
      const int of_this_height = program_.whole(0, 1);
      one.push_back({of_this_height, 1});
      posts.height.push_back({of_this_height, ways_[w].height});
      Terms three{{of_this_height, -3}};
      for (std::size_t v = w; v < ways_.size(); ++v) {
        if (ways_[v].height != ways_[w].height) continue;
        const int so_many = program_.whole(0, 3);
        three.push_back({so_many, 1});
        for (std::size_t k = 0; k < posts.used.size(); ++k) {
          if (ways_[v].parts[k] > 0) posts.used[k].push_back({so_many, 1.0 * ways_[v].parts[k]});
        }
      }
      program_.same(three, 0);
    }
    one.push_back({stands, -1});
    program_.same(one, 0);
    return posts;
  }

  static void append(Terms& terms, const Terms& more) {
    terms.insert(terms.end(), more.begin(), more.end());
  }

  void add_firing() {
    const int fired = program_.whole(0, 1, kFiring);
    if (last_fired_ >= 0) program_.most({{fired, 1}, {last_fired_, -1}}, 0);
    last_fired_ = fired;
    Terms shelves;
    std::vector<Terms> used(kiln().posts.size());
    for (std::size_t c = 0; c < kiln().columns.size(); ++c) add_column(fired, shelves, used);
    program_.most(shelves, kiln().shelves[0].have);
    for (std::size_t k = 0; k < used.size(); ++k) program_.most(used[k], kiln().posts[k].have);
  }

  void add_column(int fired, Terms& shelves, std::vector<Terms>& used) {
    const double lid = (kiln().height - kiln().under_lid).mm();
    const double thick = kiln().shelves[0].thickness.mm();
    Terms tall;  // of all of it
    int below = fired;
    Posts under;
    for (int level = 0; level < kiln().shelves[0].have; ++level) {
      const int there = program_.whole(0, 1, 1);
      program_.most({{there, 1}, {below, -1}}, 0);
      shelves.push_back({there, 1});
      tall.push_back({there, thick});
      if (level == 0 && kiln().first_shelf.mm() > 0) {
        const Posts feet = add_posts(there);
        Terms least{{there, kiln().first_shelf.mm()}};
        for (const auto& [column, times] : feet.height) least.push_back({column, -times});
        program_.most(least, 0);
        append(tall, feet.height);
        for (std::size_t k = 0; k < used.size(); ++k) append(used[k], feet.used[k]);
      }
      const int carries = program_.whole(0, 1);  // there is a shelf over it
      if (last_carries_ >= 0 && level > 0) program_.same({{there, 1}, {last_carries_, -1}}, 0);
      program_.most({{carries, 1}, {there, -1}}, 0);
      last_carries_ = carries;
      const Posts posts = add_posts(carries);
      append(tall, posts.height);
      for (std::size_t k = 0; k < used.size(); ++k) append(used[k], posts.used[k]);
      const int open = program_.real(0, lid);  // room on top, under the lid
      program_.most({{open, 1}, {there, -lid}, {carries, lid}}, 0);
      tall.push_back({open, 1});
      add_pieces(there, carries, posts.height, open);
      below = there;
    }
    program_.same({{last_carries_, 1}}, 0);
    program_.most(tall, lid);
    last_carries_ = -1;
  }

  void add_pieces(int there, int carries, const Terms& height, int open) {
    std::vector<Terms> rows(static_cast<std::size_t>(small_.rows));
    for (std::size_t s = 0; s < set_.size(); ++s) {
      const int stands = program_.whole(0, 1);
      Terms all{{stands, -1.0 * count_[s]}};
      for (Terms& row : rows) {
        const int n = program_.whole(0, count_[s]);
        row.push_back({n, static_cast<double>(small_.wide[s] + small_.gap)});
        all.push_back({n, 1});
        set_[s].push_back({n, 1});
      }
      program_.most(all, 0);
      // Air is asked to a shelf; to the lid, its own room is.
      Terms tall{{stands, static_cast<double>(small_.tall[s]) / kMm}, {open, -1}};
      for (const auto& [column, times] : height) tall.push_back({column, air() - times});
      program_.most(tall, 0);
    }
    for (Terms& row : rows) {
      row.push_back({there, -static_cast<double>(small_.row_on_top + small_.gap)});
      row.push_back({carries, static_cast<double>(small_.row_on_top - small_.row_between)});
      program_.most(row, 0);
    }
  }

  const Small& small_;
  std::vector<Way> ways_;
  Program program_;
  std::vector<Terms> set_;
  std::vector<int> count_;
  int last_fired_ = -1;
  int last_carries_ = -1;
};

}  // namespace placer::small_loads
