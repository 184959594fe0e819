#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "kinds/kind.h"
#include "model/caution.h"
#include "model/danger.h"
#include "model/finding.h"

// Which rows of schema/cautions.csv belong to a moment. A moment of a row is one of
//   start, end             a batch is begun, or closed
//   log:NAME               a deed, a judgement or a reading of that name
//   add:WHAT, take:WHAT    a load in or out, whose material has that name, group or flag; `*` is
//                              any
//   rule:RULE                  a finding of that rule
//   note:DANGER                a remark that tells of that (model/danger.h): it is said first
// each of which may end in @CASE: then it holds only where that is among the study's circumstances
// (of an entry), or is the finding's case.
namespace kinds {

std::span<const model::Caution> all_cautions();
// The row of that id, or null.
const model::Caution* find_caution(std::string_view id);
// Whether the row is one of that kind.
bool is_of(const model::Caution& caution, std::string_view kind);

// In the table's order, each once.
std::vector<const model::Caution*> cautions_of(const model::Finding& finding);
std::vector<const model::Caution*> cautions_at(const Handled& handled, const Study& study);
// Whether a remark of that danger is minded on a batch of that kind: by a row of the kind's, or
// because it is meant of people wherever it was noted.
bool is_minded(model::Danger danger, std::string_view kind);
// What a remark tells of that cannot wait: what to do about it stands before all else.
std::vector<const model::Caution*> cautions_of_note(std::string_view note, const Study& study);

}  // namespace kinds
