#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "book/write/pen.h"
#include "cli/shell/command.h"

// The picture that goes with an entry: --photo FILE, --keep.
namespace cli {

struct Photo {
  std::filesystem::path file;
  book::NewPhoto what;
  std::filesystem::path copy;  // where it is to be copied; empty: nowhere
};

// What the line says of a picture; none: nothing. A mistake: there is no such file, or --keep
// without --photo.
measure::Result<std::optional<Photo>> photo_of(const Context& context, const Arguments& arguments);

// Puts it down under the pen, and says so in what was recorded; where it is to be kept, it is
// copied first (and stays where the entry then fails: the same picture is then copied over itself).
// Throws BookError where it cannot be copied.
void add_photo(book::Pen& pen, const std::optional<Photo>& photo, std::string& recorded);

}  // namespace cli
