#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "book/file/logbook.h"

// A logbook as open files: one CSV a table (RFC 4180, UTF-8), their description in datapackage.json
// (Frictionless Data Package, tabular), and the same rows as JSON lines. Instants are ISO 8601 in
// UTC, days ISO dates on the site's clock, numbers in the base units that the description names.
namespace book {

// Writes the package into a folder that is new or empty. The files' names, in order. Throws
// BookError where a file could not be written; then what was written is taken away again.
std::vector<std::string> write_package(const Logbook& logbook, const std::filesystem::path& folder);

// Makes a new logbook of a package: equal to the one that wrote it. Throws BookError where the
// package is not whole, or where there is a file already; then nothing was made. How many entries.
int read_package(const std::filesystem::path& folder, const std::filesystem::path& logbook);

}  // namespace book
