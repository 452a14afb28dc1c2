/// @file peer.h
/// A general-purpose packer to compare with, when the build has one.
#pragma once

#include <optional>

#include "instance.h"

namespace placer::bench {

/// Whether one was built in.
bool has_peer();

/// What the peer makes of an instance in its default setting: the count, the area in % of the
/// region or the regions used, as the instance asks; nothing when it cannot or was not done in 40
/// s.
std::optional<double> peer_answer(const Instance& instance);

}  // namespace placer::bench
