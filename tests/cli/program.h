/// @file program.h
/// Runs the real program in an empty folder and catches what it says.
#pragma once

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

namespace placer::test {

inline std::string slurp(const std::filesystem::path& path) {
  std::ifstream in{path, std::ios::binary};
  return {std::istreambuf_iterator<char>{in}, std::istreambuf_iterator<char>{}};
}

struct Said {
  int status = 0;
  std::string out, err;
};

/// An empty folder that goes away with it; commands run inside.
class Folder {
 public:
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "placer-test-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error{"no folder to test in"};
    path_ = name;
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  const std::filesystem::path& path() const { return path_; }
  std::filesystem::path operator/(const std::string& name) const { return path_ / name; }

  void write(const std::string& name, const std::string& text) const {
    std::filesystem::create_directories((path_ / name).parent_path());
    std::ofstream{path_ / name, std::ios::binary} << text;
  }
  std::string read(const std::string& name) const { return slurp(path_ / name); }
  bool has(const std::string& name) const { return std::filesystem::exists(path_ / name); }

  /// Runs a shell line in the folder, with `placer` standing for the program under test.
  Said sh(const std::string& line) const {
    const std::string out = path_.string() + ".out";
    const std::string err = path_.string() + ".err";
    const std::string whole = "cd '" + path_.string() +
                              "' && placer() { '" PLACER_PROGRAM "' \"$@\"; } && { " + line +
                              "\n} >'" + out + "' 2>'" + err + "'";
    const int status = std::system(whole.c_str());
    Said said{WIFEXITED(status) ? WEXITSTATUS(status) : 128, slurp(out), slurp(err)};
    std::filesystem::remove(out);
    std::filesystem::remove(err);
    return said;
  }

 private:
  std::filesystem::path path_;
};

}  // namespace placer::test
