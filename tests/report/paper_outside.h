/// @file paper_outside.h
/// The files as other programs see them: a folder for them, running those programs, and pictures
/// of pages to measure ink on.
#pragma once

#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <catch2/catch.hpp>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "placer/geometry/shape.h"

namespace placer::support {

/// A folder of its own that goes away with it.
class Folder {
 public:
  Folder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "sheets-XXXXXX").string();
    REQUIRE(mkdtemp(pattern.data()) != nullptr);
    path_ = pattern;
  }
  ~Folder() { std::filesystem::remove_all(path_); }
  std::string write(const std::string& name, const std::string& bytes) const {
    const std::string file = (path_ / name).string();
    std::ofstream(file, std::ios::binary) << bytes;
    return file;
  }
  std::string read(const std::string& name) const {
    std::ifstream in(path_ / name, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }
  std::string path(const std::string& name) const { return (path_ / name).string(); }

 private:
  std::filesystem::path path_;
};

struct Ran {
  int status = -1;
  std::string out;
};

inline Ran run(const std::string& command) {
  Ran ran;
  FILE* pipe = popen(("{ " + command + "; } 2>&1").c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::array<char, 4096> buffer{};
  while (const std::size_t n = fread(buffer.data(), 1, buffer.size(), pipe)) {
    ran.out.append(buffer.data(), n);
  }
  const int raw = pclose(pipe);
  ran.status = WIFEXITED(raw) ? WEXITSTATUS(raw) : -1;
  return ran;
}

/// A grey picture: 0 black, 255 white.
struct Picture {
  int width = 0, height = 0;
  std::vector<unsigned char> grey;
  unsigned char at(int x, int y) const {
    return grey.at(static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                   static_cast<std::size_t>(x));
  }
};

inline Picture picture_of(const Folder& folder, const std::string& pdf, int page) {
  const Ran ran = run("pdftoppm -r 100 -gray -f " + std::to_string(page) + " -l " +
                      std::to_string(page) + " -singlefile " + pdf + " " + folder.path("page"));
  REQUIRE(ran.status == 0);
  REQUIRE(ran.out == "");  // the program has nothing to say of the file
  std::istringstream in(folder.read("page.pgm"));
  std::string magic;
  int most = 0;
  Picture picture;
  in >> magic >> picture.width >> picture.height >> most;
  REQUIRE(magic == "P5");
  REQUIRE(most == 255);
  in.get();
  picture.grey.assign(std::istreambuf_iterator<char>(in), {});
  REQUIRE(picture.grey.size() ==
          static_cast<std::size_t>(picture.width) * static_cast<std::size_t>(picture.height));
  return picture;
}

constexpr double kDotsPerMm = 100 / 25.4;

/// Height in mm of the ink within a box.
inline double ink_height(const Picture& picture, const Box& box) {
  int first = -1;
  int last = -1;
  for (int y = static_cast<int>(box.low.y * kDotsPerMm); y <= box.high.y * kDotsPerMm; ++y) {
    for (int x = static_cast<int>(box.low.x * kDotsPerMm); x <= box.high.x * kDotsPerMm; ++x) {
      if (picture.at(x, y) >= 128) continue;
      if (first < 0) first = y;
      last = y;
    }
  }
  return first < 0 ? 0 : (last - first + 1) / kDotsPerMm;
}

}  // namespace placer::support
