#pragma once

#include <optional>
#include <vector>

#include "kinds/kind.h"
#include "kinds/vocabulary.h"
#include "model/danger.h"
#include "model/history.h"

// A danger that was only remarked ("battery is swollen") stays a job until an entry ends it: nobody
// reads yesterday's notes, and what was not made safe is not safe.
namespace kinds {

inline constexpr std::string_view kSenseDanger = "all-clear";
// It goes for every batch, like the weather, and ends all that was remarked but a wait.
inline constexpr Word kAllClear{"all-clear", "allclear made-safe safe-again", kSenseDanger,
                                "what was remarked as a danger is over"};

// The dangers that were remarked and that no later entry ended, told as findings; those that the
// kind's own findings say as urgently are left to them.
std::vector<model::Told> standing_dangers(const Study& study, const std::vector<model::Told>& own);

// Takes out of a kind's own findings what must not be done while these dangers stand: beside "keep
// back" all that can wait, and what a remedy stands instead of.
void give_way(const std::vector<model::Told>& dangers, const Kind& kind,
              std::vector<model::Told>& own);

// Against closing a batch: what the kind itself says, else a remark of what must not wait.
std::optional<Objection> against_closing(const Study& study);

}  // namespace kinds
