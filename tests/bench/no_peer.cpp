// Where no peer is installed.
#include "peer.h"

namespace placer::bench {

bool has_peer() { return false; }

std::optional<double> peer_answer(const Instance&) { return std::nullopt; }

}  // namespace placer::bench
