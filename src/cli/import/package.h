#pragma once

#include <filesystem>

#include "cli/shell/command.h"

namespace cli {

// Whether a path given to `import` is a folder that `export` wrote (it holds a datapackage.json).
bool is_package(const std::filesystem::path& path);

// Makes the logbook (which must not be there yet) of an exported folder, equal to the one that was
// exported.
Outcome import_package(Context& context, const std::filesystem::path& folder);

}  // namespace cli
