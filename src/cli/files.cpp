#include "cli/files.h"

#include <fcntl.h>
#include <sys/auxv.h>
#include <unistd.h>

#include <algorithm>
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

/// Something that is no folder where one is to be made.
void refuse_in_the_way(const fs::path& folder) {
  std::error_code error;
  const fs::file_status there = fs::symlink_status(folder, error);
  if (fs::is_symlink(there)) fail(ENOENT, "this link leads to no folder:", folder);
  if (fs::exists(there)) fail(EEXIST, "a file is in the way of the folder", folder);
}

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
    std::error_code error;
    if (folder.empty() || fs::is_directory(folder, error)) return;
    refuse_in_the_way(folder);
    make_folder(folder.parent_path());
    if (fs::create_directory(folder, error)) folders_.push_back(folder);
    if (error) fail(error.value(), "cannot make the folder", folder);
  }

  void write(const NewFile& file) {
    make_folder(file.path.parent_path());
    std::error_code ignored;
    if (fs::is_directory(file.path, ignored)) fail(EISDIR, "cannot write", file.path);
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
  std::error_code ignored;
  if (fs::is_directory(path, ignored)) fail(EISDIR, "cannot read", path);
  if (fs::is_character_file(path, ignored)) fail(ENOTSUP, "cannot read", path);
  errno = 0;
  std::ifstream in{path, std::ios::binary};
  if (!in) fail(errno != 0 ? errno : EIO, "cannot read", path);
  std::string bytes = slurp(in);
  if (in.bad()) fail(EIO, "cannot read", path);
  return bytes;
}

void expect_folder(const fs::path& folder) {
  std::error_code error;
  if (fs::is_directory(folder, error)) {
    if (::access(folder.c_str(), W_OK | X_OK) != 0) fail(errno, "cannot write in", folder);
    return;
  }
  refuse_in_the_way(folder);
  const fs::path parent = folder.parent_path();
  expect_folder(parent.empty() ? fs::path{"."} : parent);
}

void write_all(const std::vector<NewFile>& files) {
  Beside beside;
  for (const NewFile& file : files) beside.write(file);
  beside.rename_all();
}

int remove_leftovers(const std::vector<NewFile>& files, const fs::path& folder,
                     const std::string& begins, const std::string& ends) {
  std::vector<fs::path> left;
  std::error_code ignored;
  for (const fs::directory_entry& entry : fs::directory_iterator{folder, ignored}) {
    const std::string name = entry.path().filename().string();
    const bool ours = name.starts_with(begins) && name.ends_with(ends);
    const bool fresh = std::ranges::any_of(files, [&](const NewFile& file) {
      return file.path.parent_path() == folder && file.path.filename() == name;
    });
    if (ours && !fresh && entry.is_regular_file(ignored)) left.push_back(entry.path());
  }
  for (const fs::path& path : left) fs::remove(path, ignored);
  return static_cast<int>(left.size());
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
