#pragma once

#include <stdexcept>
#include <string>

namespace book {

// The logbook could not be opened, read or written. The message names the file, what went wrong,
// what survives, and the next step; it is fit to print as it is.
class BookError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

}  // namespace book
