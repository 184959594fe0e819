#pragma once

#include "kinds/pile/study.h"

namespace kinds::pile {

// The record of a pile's treatment that a certifier asks for: what went in and its blend,
// temperatures by position day by day, turnings, method, and the outcome under each standard asked,
// with its text and edition and how each day was counted.
model::Record record_of(const Study& study);

}  // namespace kinds::pile
