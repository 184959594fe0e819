#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>
#include <string_view>

namespace book {

// The logbook could not be opened, read or written. The message names the file, what went wrong,
// what survives, and the next step; it is fit to print as it is.
class BookError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

// Says of a file why it is left as it is.
[[noreturn]] inline void refuse(const std::filesystem::path& path, std::string_view why) {
  throw BookError(path.string() + ": " + std::string(why));
}

// The file itself is wrong: reading it again would not help, and a backup may take its place.
class DamageError : public BookError {
 public:
  using BookError::BookError;
};

}  // namespace book
