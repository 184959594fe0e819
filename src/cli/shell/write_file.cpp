#include "cli/shell/write_file.h"

#include <fmt/format.h>
#include <unistd.h>

#include <fstream>
#include <ostream>

#include "book/file/error.h"
#include "book/file/takeover.h"
#include "render/text.h"

namespace cli {
namespace {

namespace fs = std::filesystem;

// The season's record, or another database: no report is worth it.
bool is_database(const fs::path& path) {
  std::error_code none;
  if (!fs::is_regular_file(path, none)) return false;
  constexpr std::string_view kBegin = "SQLite format 3";  // SQLite file format, section 1.3
  std::string begin(kBegin.size(), '\0');
  std::ifstream(path, std::ios::binary)
      .read(begin.data(), static_cast<std::streamsize>(begin.size()));
  return begin == kBegin;
}

void write(const fs::path& path, std::string_view content) {
  std::ofstream file(path, std::ios::binary | std::ios::trunc);
  file << content;
  file.close();
  if (!file) book::refuse(path, "could not be written");
}

}  // namespace

fs::path draft_of(const fs::path& path) {
  return path.parent_path() / fmt::format(".{}.part-{}", path.filename().string(), ::getpid());
}

void write_file(const fs::path& path, std::string_view content) {
  if (is_database(path)) book::refuse(path, "this is a database; it was left as it is");
  std::error_code error;
  const auto status = fs::symlink_status(path, error);
  // Links and devices (/dev/stdout) are written through.
  if (fs::exists(status) && !fs::is_regular_file(status)) return write(path, content);
  const fs::path draft = draft_of(path);
  fs::remove(draft, error);  // of a process that had this number and was killed
  try {
    book::make_private(draft, path);
    write(draft, content);
    // Whom a file that is there was opened to, its successor is too.
    if (fs::is_regular_file(status)) fs::permissions(draft, status.permissions());
  } catch (...) {
    fs::remove(draft, error);
    book::refuse(path, "could not be written");
  }
  fs::rename(draft, path, error);
  if (!error) return;
  const std::string why = error.message();
  fs::remove(draft, error);
  book::refuse(path, "could not be written: " + why);
}

void write_or_print(Context& context, const std::string& file, std::string_view content,
                    const std::string& what) {
  if (file == "-") {
    context.out << content;
    return;
  }
  write_file(file, content);
  context.out << render::wrapped(what + ": " + file, static_cast<std::size_t>(context.width), 2)
              << '\n';
}

}  // namespace cli
