/// placer's front door: arguments in, exit status out.
#include <spdlog/sinks/stdout_sinks.h>
#include <spdlog/spdlog.h>

#include <iostream>

#include "cli/arguments.h"
#include "cli/commands.h"

int main(int argc, char** argv) {
  using namespace placer::cli;
  const auto understood = understand(argc, argv);
  if (const auto* text = std::get_if<PrintAndLeave>(&understood)) {
    (text->status == ExitStatus::done ? std::cout : std::cerr) << text->text;
    return static_cast<int>(text->status);
  }
  const Request& request = std::get<Request>(understood);
  spdlog::set_default_logger(spdlog::stderr_logger_st("placer"));
  spdlog::set_pattern("%v");
  spdlog::set_level(request.verbose ? spdlog::level::debug : spdlog::level::off);
  const ExitStatus status = carry_out(request);
  std::cout.flush();
  if (!std::cout && status == ExitStatus::done) {
    std::cerr << "placer: the answer could not be written\n";
    return static_cast<int>(ExitStatus::could_not_run);
  }
  return static_cast<int>(status);
}
