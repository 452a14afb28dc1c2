/// @file files.h
/// Reading whole files, and writing several of them whole or not at all.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace placer::cli {

/// The bytes of a file, or of standard input for "-".
/// @throws std::system_error with the path when it cannot be read.
std::string read_whole(const std::filesystem::path& path);

struct NewFile {
  std::filesystem::path path;
  std::string bytes;
};

/// Writes all of them, or leaves every existing file as it was: each is written beside its place
/// and flushed to the disk; only when all are there are they renamed. Missing folders are made.
/// @throws std::system_error with the path that failed.
void write_all(const std::vector<NewFile>& files);

/// Writes a file that must not exist yet. @throws std::system_error (EEXIST) when it does.
void write_new(const NewFile& file);

/// Where the cone tables and profiles are: beside the installed program, or in the source tree.
/// @throws std::system_error when there are none.
std::filesystem::path schedules_folder();

}  // namespace placer::cli
