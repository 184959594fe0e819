#include "cli/shell/environment.h"

#include <pwd.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "measure/text.h"
#include "measure/when.h"

namespace cli {
namespace {

constexpr int kFewestColumns = 40, kMostColumns = 120;

std::optional<std::string> variable(const char* name) {
  const char* value = std::getenv(name);
  if (value == nullptr || *value == '\0') return std::nullopt;
  return value;
}

}  // namespace

std::filesystem::path logbook_path(const std::optional<std::string>& option) {
  if (option) return *option;
  if (const auto book = variable("ROUNDBOOK_BOOK")) return *book;
  if (const auto data = variable("XDG_DATA_HOME")) {
    return std::filesystem::path(*data) / "roundbook" / "logbook.db";
  }
  return std::filesystem::path(variable("HOME").value_or(".")) / ".local" / "share" / "roundbook" /
         "logbook.db";
}

measure::Result<measure::Instant> clock_now() {
  const auto now = date::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  const auto set = variable("ROUNDBOOK_NOW");
  if (!set) return measure::Instant{now};
  const auto utc = measure::Zone::named("Etc/UTC");
  if (!utc) {
    return measure::Mistake{*set, "this computer has no time zone data; install it (tzdata)"};
  }
  const auto when = measure::parse_when(*set, measure::Instant::max(), *utc);
  if (!when) return measure::Mistake{*set, "ROUNDBOOK_NOW: " + when.mistake().why};
  return when->at;
}

std::string user_name() {
  if (const auto who = variable("ROUNDBOOK_WHO")) return *who;
  const passwd* entry = getpwuid(getuid());
  return entry != nullptr ? entry->pw_name : "uid " + std::to_string(getuid());
}

bool makes_backups() {
  return variable("ROUNDBOOK_BACKUPS").value_or("") != "off";
}

int terminal_width() {
  // Said by whoever reads it, also where the output goes through a pipe.
  if (const auto said = variable("COLUMNS")) {
    const auto columns = measure::parse_number(*said);
    if (columns && *columns >= kFewestColumns && *columns <= 500) {
      return std::min(static_cast<int>(*columns), kMostColumns);
    }
  }
  winsize size{};
  if (isatty(STDOUT_FILENO) == 1 && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 &&
      size.ws_col >= kFewestColumns) {
    return std::min<int>(size.ws_col, kMostColumns);
  }
  return 80;
}

bool wraps_refusals() {
  return variable("COLUMNS").has_value() || isatty(STDERR_FILENO) == 1;
}

bool can_ask() {
  return isatty(STDIN_FILENO) == 1 && isatty(STDERR_FILENO) == 1;
}

bool may_color() {
  return isatty(STDOUT_FILENO) == 1 && !variable("NO_COLOR") &&
         variable("TERM").value_or("") != "dumb";
}

// Where /etc/localtime points, or what /etc/timezone says.
std::optional<std::string> system_zone() {
  std::error_code none;
  std::string name = std::filesystem::read_symlink("/etc/localtime", none).string();
  constexpr std::string_view kFolder = "zoneinfo/";
  if (const auto at = name.rfind(kFolder); at != std::string::npos) {
    name = name.substr(at + kFolder.size());
  } else {
    std::getline(std::ifstream("/etc/timezone"), name);
  }
  return measure::Zone::named(name) ? std::optional(name) : std::nullopt;
}

bool system_is_us() {
  for (const char* name : {"LC_ALL", "LC_MEASUREMENT", "LANG"}) {
    if (const auto locale = variable(name)) return locale->find("_US") != std::string::npos;
  }
  return false;
}

}  // namespace cli
