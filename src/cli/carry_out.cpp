/// Every failure becomes a message and a status here, and nowhere else.
#include <fmt/format.h>

#include <iostream>
#include <map>
#include <new>
#include <system_error>

#include "cli/commands.h"
#include "cli/files.h"
#include "cli/studio_file.h"

namespace placer::cli {
namespace {

using Command = ExitStatus (*)(const Request&);

Command command_called(const std::string& name) {
  static const std::map<std::string, Command, std::less<>> commands{
      {"begin", begin}, {"check", check}, {"load", load},   {"firing", firing},
      {"print", print}, {"cone", cone},   {"shelf", shelf}, {"reached", reached},
      {"probe", probe}, {"why", why},     {"words", words}, {"tidy", tidy},
  };
  return commands.at(name);
}

std::string missing_file_advice(const std::system_error& error, const Request& request) {
  const bool studio_missing =
      error.code() == std::errc::no_such_file_or_directory &&
      std::string_view{error.what()}.find(request.file) != std::string::npos;
  return studio_missing ? "To start from a small working file: placer begin\n" : "";
}

}  // namespace

ExitStatus carry_out(const Request& request) {
  try {
    return command_called(request.command)(request);
  } catch (const Told&) {
    return ExitStatus::could_not_run;
  } catch (const InputError& error) {
    tell(error.findings(), "", "", request);
    return ExitStatus::could_not_run;
  } catch (const std::system_error& error) {
    std::cerr << "placer: " << error.what() << "\n" << missing_file_advice(error, request);
    return ExitStatus::could_not_run;
  } catch (const std::bad_alloc&) {
    std::cerr << "placer: not enough memory for this\n";
    return ExitStatus::could_not_run;
  } catch (const std::exception& error) {
    std::cerr << "placer: a fault of placer's own, not of your file: " << error.what() << "\n";
    return ExitStatus::our_fault;
  }
}

}  // namespace placer::cli
