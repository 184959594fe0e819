#pragma once

#include <string>
#include <vector>

#include "book/file/logbook.h"

namespace book {

// The names of all who recorded something, in alphabetical order.
std::vector<std::string> people(const Logbook& logbook);

}  // namespace book
