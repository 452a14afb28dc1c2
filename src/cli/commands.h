/// @file commands.h
/// What each command does, from a Request to an ExitStatus. Results go to standard output, talk to
/// standard error.
#pragma once

#include "cli/request.h"

namespace placer::cli {

ExitStatus begin(const Request& request);
ExitStatus check(const Request& request);
ExitStatus load(const Request& request);
ExitStatus firing(const Request& request);
ExitStatus print(const Request& request);
ExitStatus cone(const Request& request);
ExitStatus reached(const Request& request);
ExitStatus probe(const Request& request);
ExitStatus shelf(const Request& request);
ExitStatus why(const Request& request);
ExitStatus words(const Request& request);
ExitStatus tidy(const Request& request);

/// Runs the request's command and turns every failure into a message and a status.
ExitStatus carry_out(const Request& request);

}  // namespace placer::cli
