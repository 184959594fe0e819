#pragma once

#include <vector>

#include "kinds/digester/study.h"

namespace kinds::digester {

// `digester.trend`: what is at its limit soon; pH and acids that part are told of earlier. Of a
// slurry that is sour already `digester.sour` says enough.
void judge_trends(const Study& study, std::vector<model::Finding>& into);

std::string_view case_of(Followed what);
// The trend of it; null: not followed.
const Trend* find_trend(const std::vector<Trend>& trends, Followed what);

}  // namespace kinds::digester
