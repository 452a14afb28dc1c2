#include "cli/files.h"

#include <fcntl.h>
#include <sys/auxv.h>
#include <unistd.h>

#include <cerrno>
#include <fstream>
#include <iostream>
#include <iterator>
#include <system_error>

namespace placer::cli {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(int code, const std::string& what, const fs::path& path) {
  throw std::system_error{code, std::generic_category(), what + " " + path.string()};
}

/// An open file that closes itself.
class Descriptor {
 public:
  Descriptor(const fs::path& path, int flags)
      : path_{path}, fd_{::open(path.c_str(), flags, 0666)} {
    if (fd_ < 0) fail(errno, "cannot write", path_);
  }
  ~Descriptor() {
    if (fd_ >= 0) ::close(fd_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;

  void write(const std::string& bytes) {
    std::size_t done = 0;
    while (done < bytes.size()) {
      const ssize_t n = ::write(fd_, bytes.data() + done, bytes.size() - done);
      if (n < 0 && errno == EINTR) continue;
      if (n < 0) fail(errno, "cannot write", path_);
      done += static_cast<std::size_t>(n);
    }
  }
  void flush_and_close() {
    if (::fsync(fd_) != 0 && errno != EINVAL) fail(errno, "cannot write", path_);
    const int fd = fd_;
    fd_ = -1;
    if (::close(fd) != 0) fail(errno, "cannot write", path_);
  }

 private:
  fs::path path_;
  int fd_;
};

/// Files written beside their places; those not renamed are removed again.
class Beside {
 public:
  ~Beside() {
    for (const auto& [draft, place] : waiting_) {
      std::error_code ignored;
      fs::remove(draft, ignored);
    }
    for (auto it = folders_.rbegin(); it != folders_.rend(); ++it) {
      std::error_code ignored;
      if (!renamed_) fs::remove(*it, ignored);  // only a folder we made, and only if still empty
    }
  }

  void make_folder(const fs::path& folder) {
    if (folder.empty() || fs::is_directory(folder)) return;
    make_folder(folder.parent_path());
    std::error_code error;
    if (fs::create_directory(folder, error)) folders_.push_back(folder);
    if (error) fail(error.value(), "cannot make the folder", folder);
    if (!fs::is_directory(folder)) fail(ENOTDIR, "a file is in the way of the folder", folder);
  }

  void write(const NewFile& file) {
    make_folder(file.path.parent_path());
    if (fs::is_directory(file.path)) fail(EISDIR, "cannot write", file.path);
    fs::path draft = file.path;
    draft += "." + std::to_string(::getpid()) + ".part";
    Descriptor out{draft, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC};
    waiting_.emplace_back(draft, file.path);
    out.write(file.bytes);
    out.flush_and_close();
  }

  void rename_all() {
    renamed_ = true;
    while (!waiting_.empty()) {
      const auto [draft, place] = waiting_.back();
      std::error_code error;
      fs::rename(draft, place, error);
      if (error) fail(error.value(), "cannot write", place);
      waiting_.pop_back();
    }
  }

 private:
  std::vector<std::pair<fs::path, fs::path>> waiting_;
  std::vector<fs::path> folders_;
  bool renamed_ = false;
};

std::string slurp(std::istream& in) {
  return {std::istreambuf_iterator<char>{in}, std::istreambuf_iterator<char>{}};
}

}  // namespace

std::string read_whole(const fs::path& path) {
  if (path == "-") return slurp(std::cin);
  if (fs::is_directory(path)) fail(EISDIR, "cannot read", path);
  if (fs::is_character_file(path)) fail(EINVAL, "not a file that ends:", path);
  errno = 0;
  std::ifstream in{path, std::ios::binary};
  if (!in) fail(errno != 0 ? errno : EIO, "cannot read", path);
  std::string bytes = slurp(in);
  if (in.bad()) fail(EIO, "cannot read", path);
  return bytes;
}

void write_all(const std::vector<NewFile>& files) {
  Beside beside;
  for (const NewFile& file : files) beside.write(file);
  beside.rename_all();
}

void write_new(const NewFile& file) {
  Descriptor out{file.path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC};
  out.write(file.bytes);
  out.flush_and_close();
}

namespace {

/// The running program: asked of the kernel, or of the call that started it where /proc is not.
fs::path this_program() {
  std::error_code problem;
  const fs::path program = fs::read_symlink("/proc/self/exe", problem);
  if (!problem) return program;
  const auto* started = reinterpret_cast<const char*>(::getauxval(AT_EXECFN));
  return started == nullptr ? fs::path{} : fs::weakly_canonical(started, problem);
}

}  // namespace

fs::path schedules_folder() {
  std::error_code ignored;
  const fs::path program = this_program();
  for (const fs::path& folder :
       {program.parent_path() / "../share/placer/schedules", fs::path{PLACER_INSTALLED_SCHEDULES},
        fs::path{PLACER_SOURCE_SCHEDULES}}) {
    if (fs::is_regular_file(folder / "cones.yaml", ignored)) return folder.lexically_normal();
  }
  fail(ENOENT, "cannot find the cone tables, looked last in", PLACER_SOURCE_SCHEDULES);
}

}  // namespace placer::cli
