// An exported package of which one file was changed: the first line names the table, the rest is
// its CSV. It is refused, or makes a logbook that opens and can be checked.
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>

#include "book/keep/check.h"
#include "book/keep/package.h"
#include "book/keep/package_text.h"
#include "fuzz_site.h"

namespace {

namespace fs = std::filesystem;

// What a cell is read as is written as what reads back the same.
void round_cells(std::string_view text) {
  static const auto tables = book::recorded_tables(fuzz::site().connection().database);
  const auto records = book::csv_records(text);
  if (!records) return;
  for (const auto& record : *records) {
    for (const std::string& field : record) {
      for (const book::TableInfo& table : tables) {
        for (const book::ColumnInfo& column : table.columns) {
          const auto cell = book::cell_of(column, field);
          if (!cell) continue;
          const std::string written = book::csv_cell(column, *cell);
          const auto quoted = book::csv_records(written + "\n");
          if (!quoted || quoted->size() != 1 || (*quoted)[0].size() != 1) abort();
          if (book::cell_of(column, (*quoted)[0][0]) != cell) abort();
        }
      }
    }
    break;
  }
}

const fs::path& package() {
  static const fs::path made = [] {
    const fs::path at = fuzz::folder() / "package";
    fs::remove_all(at);
    book::write_package(fuzz::site(), at);
    fs::copy(at, fuzz::folder() / "tried", fs::copy_options::recursive);
    return at;
  }();
  return made;
}

void read_whole(const std::string& name, std::string_view bytes) {
  const fs::path good = package() / name;
  const fs::path tried = fuzz::folder() / "tried" / name;
  std::ofstream(tried, std::ios::binary | std::ios::trunc) << bytes;
  const fs::path made = fuzz::folder() / "made.db";
  for (const char* end : {"", "-wal", "-shm"}) fs::remove(made.string() + end);
  try {
    book::read_package(fuzz::folder() / "tried", made);
    const book::Logbook logbook(made, book::Access::kRead);
    for (const book::Trouble& trouble : book::check(logbook, fuzz::kNow)) {
      if (!measure::is_clean_text(trouble.what)) abort();
    }
  } catch (const book::BookError& error) {
    if (!measure::is_clean_text(error.what())) abort();
  }
  fs::copy_file(good, tried, fs::copy_options::overwrite_existing);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view input(reinterpret_cast<const char*>(data), size);
  const std::size_t line = std::min(input.find('\n'), size);
  const std::string_view bytes = input.substr(std::min(line + 1, size));
  round_cells(bytes);
  const std::string name(input.substr(0, line));
  const bool is_a_file = name.find('/') == std::string::npos && !name.empty() && name[0] != '.' &&
                         name.find('\0') == std::string::npos && fs::exists(package() / name);
  if (is_a_file) read_whole(name, bytes);
  return 0;
}
