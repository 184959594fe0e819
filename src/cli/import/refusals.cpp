#include "cli/import/refusals.h"

#include <fmt/format.h>

#include "book/file/error.h"
#include "book/file/takeover.h"
#include "cli/shell/write_file.h"
#include "measure/text.h"
#include "render/csv.h"

namespace cli {
namespace {

constexpr std::size_t kShown = 10;

const std::string& header() {
  static const std::string text = render::Csv({"line", "why", "row"}).str();
  return text;
}

// What --keep-good wrote before may be written over: its rows stand in the file they came from.
bool is_ours(const std::filesystem::path& path) {
  if (!std::filesystem::is_regular_file(std::filesystem::symlink_status(path))) return false;
  std::ifstream file(path, std::ios::binary);
  std::string begin(header().size(), '\0');
  file.read(begin.data(), static_cast<std::streamsize>(begin.size()));
  return begin == header();
}

}  // namespace

Refusals::Refusals(std::filesystem::path path) : path_(std::move(path)) {
  if (path_.empty()) return;
  if (std::filesystem::exists(std::filesystem::symlink_status(path_)) && !is_ours(path_)) {
    throw book::BookError(fmt::format(
        "{}: there is a file here already, and none of refused rows; it was left as it is",
        measure::quoted(path_.string())));
  }
  draft_ = draft_of(path_);
  std::filesystem::remove(draft_);  // of a process that had this number and was killed
  book::make_private(draft_, path_);
  file_.open(draft_, std::ios::binary);
  file_ << header();
}

Refusals::~Refusals() {
  std::error_code none;
  if (!draft_.empty()) std::filesystem::remove(draft_, none);
}

void Refusals::add(std::uint64_t line, std::string_view why, std::string_view row) {
  ++count_;
  if (shown_.size() < kShown) shown_.push_back({line, std::string(why)});
  if (path_.empty()) return;
  render::Csv csv({});
  csv.whole(static_cast<long long>(line)).text(why).text(row).end_row();
  file_ << csv.str().substr(2);  // behind the line end of the header that it has not
}

void Refusals::finish() {
  if (path_.empty()) return;
  file_.close();
  if (!file_) {
    throw book::BookError("the file of refused rows cannot be written");
  }
  if (count_ > 0) book::force_to_disk(draft_);
}

void Refusals::keep() {
  if (!path_.empty() && count_ > 0) std::filesystem::rename(draft_, path_);
}

}  // namespace cli
