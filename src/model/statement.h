#pragma once

#include <string>
#include <string_view>

#include "measure/moment.h"
#include "measure/result.h"
#include "model/material.h"

// A supplier's statement that manure or compost was treated, without which it counts as raw.
namespace model {

struct Statement {
  std::string who;
  std::string process;  // as it was typed: "turned windrow 15 days"
  std::string law;      // that takes the process as a treatment: "7 CFR 205.203(c)(2)(iii)"
  measure::Day when;
};

// Three parts joined by commas, in any order: who says so, by which process, and a day as
// 2027-03-20; more may follow ("lot 7"). The process begins with a word of a short list: those of
// 7 CFR 205.203(c)(2)(ii) and (iii) and 21 CFR 112.54(b), composting in a vessel, in an aerated
// static pile, or in a turned windrow; and heating (21 CFR 112.54(a); NOP 5006). What denies or
// doubts ("not", "unknown", "?") is no statement, wherever it stands.
measure::Result<Statement> read_statement(std::string_view text);

// The material with that as its statement: it counts as treated where the text is one, and as of
// unknown treatment or as manure, by its group, where it is none.
void state_treatment(Material& material, std::string_view text);

}  // namespace model
