#include "peer.h"

namespace placer::bench {

std::optional<double> peer_answer(const Instance&) { return std::nullopt; }

}  // namespace placer::bench
