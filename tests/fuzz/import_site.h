#pragma once

#include <sys/mman.h>
#include <unistd.h>

#include <cstdlib>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <string_view>

#include "cli/shell/commands.h"
#include "fuzz_site.h"

// An import of any bytes, which goes the whole way but is not kept.
namespace fuzz {

inline std::int64_t rows_recorded() {
  std::int64_t count = 0;
  for (const char* sql : {"SELECT count(*) FROM reading", "SELECT count(*) FROM entry",
                          "SELECT count(*) FROM mapping", "SELECT count(*) FROM series"}) {
    count = count * 1000 + site().connection().database.execAndGet(sql).getInt64();
  }
  return count;
}

// A file that is nowhere but in memory.
class MemoryFile {
 public:
  explicit MemoryFile(std::string_view bytes) : handle_(memfd_create("import", MFD_CLOEXEC)) {
    for (std::size_t at = 0; at < bytes.size();) {
      const ssize_t put = ::write(handle_, bytes.data() + at, bytes.size() - at);
      if (put <= 0) abort();
      at += static_cast<std::size_t>(put);
    }
  }
  ~MemoryFile() { ::close(handle_); }
  MemoryFile(const MemoryFile&) = delete;
  MemoryFile& operator=(const MemoryFile&) = delete;
  std::string path() const { return "/proc/self/fd/" + std::to_string(handle_); }

 private:
  int handle_;
};

// `words`: as behind "import FILE", tabs between them; those with "--" are options. It is a dry run
// always. Whatever was read, it ends in an answer fit for a terminal, and the logbook is as before.
inline void try_import(std::string_view words, std::string_view bytes) {
  static const std::int64_t before = rows_recorded();
  const MemoryFile file(bytes);
  cli::Arguments arguments;
  arguments.words.push_back(file.path());
  arguments.flags["dry-run"] = true;
  bool json = false;
  for (const std::string& word : measure::split(words, '\t')) {
    if (word.empty() || word.size() > 8192 || !measure::is_clean_text(word)) continue;
    const std::size_t equals = word.find('=');
    if (!word.starts_with("--")) {
      arguments.words.push_back(word);
    } else if (word == "--json") {
      json = true;
    } else if (equals != std::string::npos) {
      arguments.options[word.substr(2, equals - 2)] = word.substr(equals + 1);
    } else {
      arguments.flags[word.substr(2)] = true;
    }
  }
  std::ostringstream out, err;
  std::istringstream in;
  cli::Context context{.out = out,
                       .err = err,
                       .in = in,
                       .clock = kNow,
                       .book_path = site().path(),
                       .who = "ada",
                       .line = "import",
                       .json = json,
                       .units = {},
                       .as_of = {},
                       .book = &site()};
  try {
    const cli::Outcome outcome = cli::run_import(context, arguments);
    if (!outcome && outcome.mistake().why.empty()) abort();
    if (!outcome && !measure::is_clean_text(outcome.mistake().why)) abort();
    if (outcome && json && !nlohmann::json::accept(out.str())) abort();
  } catch (const book::BookError& error) {
    if (!measure::is_clean_text(error.what())) abort();
  }
  for (const std::string& line : measure::split(out.str(), '\n')) {
    if (!measure::is_clean_text(line)) abort();
  }
  if (rows_recorded() != before) abort();
}

}  // namespace fuzz
