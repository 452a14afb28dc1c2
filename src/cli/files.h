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

/// Whether files can be written into the folder, or the folder made: asked before long work.
/// @throws std::system_error with the path that is in the way or may not be written.
void expect_folder(const std::filesystem::path& folder);

/// Writes all of them, or leaves every existing file as it was: each is written beside its place
/// and flushed to the disk; only when all are there are they renamed. Missing folders are made.
/// @throws std::system_error with the path that failed.
void write_all(const std::vector<NewFile>& files);

/// Removes what an earlier run wrote into the folder and this one did not: files whose names begin
/// and end so and that are not among `files`. How many there were.
int remove_leftovers(const std::vector<NewFile>& files, const std::filesystem::path& folder,
                     const std::string& begins, const std::string& ends);

/// Writes a file that must not exist yet. @throws std::system_error (EEXIST) when it does.
void write_new(const NewFile& file);

/// Where the cone tables and profiles are: beside the installed program, or in the source tree.
/// @throws std::system_error when there are none.
std::filesystem::path schedules_folder();

}  // namespace placer::cli
