#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "kinds/kind.h"
#include "model/history.h"
#include "model/rules.h"

// What a load brings with it from the batches it came through: raw manure that still counts as
// raw, and what the batch it left knows of its contents.
namespace season {

// A batch as the walk over the movements meets it.
struct SourceBatch {
  const kinds::Kind* kind;
  std::function<model::History(model::Instant)> history;  // as of a moment
  model::Rules rules;
};

struct Provenance {
  std::vector<model::ManureTrail> manure;
  std::optional<model::Load> holds;
};

// By movement id. `movements` are all of the site, oldest first; `batches` are by label. One walk
// in order of time: a load knows what had gone into its batch before it left, so that a loop
// (effluent to pile to digester) ends by itself, and a trail that comes back to a batch it has
// passed is not followed round again.
std::map<std::int64_t, Provenance> provenance(const std::vector<model::Movement>& movements,
                                              const std::map<std::string, SourceBatch>& batches);

// Raw manure in a load from outside, or of what a batch makes itself (a flock); none where it is
// known to be treated, or vegetation.
std::optional<model::ManureTrail> raw_at_origin(const model::Material& material);

}  // namespace season
