#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "book/import/mapping.h"
#include "book/write/pen.h"

// What the logbook keeps of imports beside the readings: mappings under a name, how far a file was
// read, and what each import brought.
namespace book {

std::optional<Mapping> find_mapping(const Logbook& logbook, const std::string& name);
std::vector<std::string> mapping_names(const Logbook& logbook);
void keep_mapping(Logbook& logbook, const Pen& pen, const std::string& name,
                  const Mapping& mapping);

// How far a file was read, by which mapping.
struct FileProgress {
  std::string path;  // absolute
  std::string mapping;
  std::uint64_t read_to = 0;  // bytes
  std::uint64_t lines = 0;
  std::string print;  // of its first and last bytes up to there
};
std::optional<FileProgress> progress_of(const Logbook& logbook, const std::string& path);
void keep_progress(Logbook& logbook, const Pen& pen, const FileProgress& progress);

struct ImportCounts {
  std::uint64_t rows = 0, recorded = 0, already = 0, refused = 0;
};
void keep_import(Logbook& logbook, const Pen& pen, const std::string& file,
                 const std::string& mapping, const ImportCounts& counts);

// Takes the readings of an import back: they move to taken_back_reading, and the rolls of their
// days are made anew. The journal gets no row for each. An entry that was no import is left as it
// is. How many readings moved.
std::int64_t take_back_import(Logbook& logbook, std::int64_t entry);

}  // namespace book
