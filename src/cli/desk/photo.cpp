#include "cli/desk/photo.h"

#include <fmt/format.h>

#include <fstream>

#include "book/file/error.h"
#include "book/file/takeover.h"
#include "book/keep/sha256.h"
#include "cli/shell/write_file.h"
#include "measure/text.h"

namespace cli {
namespace {

namespace fs = std::filesystem;

std::string digest_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in.is_open()) book::refuse(file, "it cannot be read; nothing was recorded");
  return book::sha256(in).hex;
}

constexpr std::size_t kDigitsInName = 12;  // of the digest: two pictures may have one name

fs::path photo_folder(const fs::path& logbook) {
  return fs::absolute(logbook).parent_path() / (logbook.stem().string() + "-photos");
}

void copy_picture(const Photo& photo) {
  std::error_code error;
  fs::create_directories(photo.copy.parent_path(), error);
  const fs::path draft = draft_of(photo.copy);
  if (!error) fs::copy_file(photo.file, draft, fs::copy_options::overwrite_existing, error);
  if (error) {
    fs::remove(draft);
    book::refuse(photo.copy, "the picture could not be copied; nothing was recorded");
  }
  // It may have changed since it was looked at.
  if (digest_of(draft) != photo.what.sha256) {
    fs::remove(draft);
    book::refuse(photo.file, "it changed while it was read; nothing was recorded");
  }
  book::force_to_disk(draft);
  fs::rename(draft, photo.copy);
}

}  // namespace

measure::Result<std::optional<Photo>> photo_of(const Context& context, const Arguments& arguments) {
  const auto named = arguments.option("photo");
  if (!named) {
    if (!arguments.flag("keep")) return std::optional<Photo>();
    return measure::Mistake{"--keep", "--keep is for a picture: --photo FILE --keep"};
  }
  const fs::path file = *named;
  std::error_code error;
  if (!fs::is_regular_file(file, error)) {
    return measure::Mistake{*named,
                            fmt::format("--photo: there is no file {}", measure::quoted(*named))};
  }
  Photo photo{file, {file.filename().string(), digest_of(file), ""}, {}};
  if (!measure::is_clean_text(photo.what.name)) {
    return measure::Mistake{*named, "--photo: the file's name holds what cannot be written down"};
  }
  if (arguments.flag("keep")) {
    photo.what.kept = photo.what.sha256.substr(0, kDigitsInName) + "-" + photo.what.name;
    photo.copy = photo_folder(context.book_path) / photo.what.kept;
  }
  return std::optional(photo);
}

void add_photo(book::Pen& pen, const std::optional<Photo>& photo, std::string& recorded) {
  if (!photo) return;
  if (!photo->copy.empty()) copy_picture(*photo);
  pen.add_photo(photo->what);
  recorded += fmt::format("{}photo {}{}", recorded.empty() ? "" : "; ", photo->what.name,
                          photo->copy.empty() ? "" : ", copied");
}

}  // namespace cli
