#pragma once

#include <string>

#include "kinds/nestbox/broods.h"
#include "model/finding.h"

// The sentences of a nest box.
namespace kinds::nestbox {

model::Words words_of(const model::Finding& finding, model::Day today);
// "4 eggs, since Tue 20 Apr"
std::string brood_words(const Brood& brood, model::Day today);
// When eggs or young counted from that day hatch or fly.
std::string flying_line(bool young);  // of the days to come
std::string foreseen_words(model::Day from, model::Day first, model::Day last, model::Day today);

}  // namespace kinds::nestbox
