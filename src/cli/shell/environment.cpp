#include "cli/shell/environment.h"

#include <fmt/format.h>
#include <poll.h>
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

measure::Result<std::filesystem::path> logbook_path(const std::optional<std::string>& option) {
  using Path = std::filesystem::path;
  if (option) return Path(*option);
  if (const auto book = variable("ROUNDBOOK_BOOK")) return Path(*book);
  if (const auto data = variable("XDG_DATA_HOME")) return Path(*data) / "roundbook" / "logbook.db";
  std::optional<std::string> home = variable("HOME");
  if (!home) {
    const passwd* entry = getpwuid(getuid());
    if (entry != nullptr && entry->pw_dir != nullptr && *entry->pw_dir == '/') home = entry->pw_dir;
  }
  if (!home) {
    return measure::Mistake{"", "there is no home folder to keep the logbook in; say --book FILE"};
  }
  return Path(*home) / ".local" / "share" / "roundbook" / "logbook.db";
}

measure::Result<measure::Instant> clock_now() {
  const measure::Instant now{
      date::floor<std::chrono::seconds>(std::chrono::system_clock::now()).time_since_epoch()};
  const auto set = variable("ROUNDBOOK_NOW");
  if (!set) return now;
  // A clock that a word or a slip sets would be recorded with what is typed.
  constexpr date::days kCentury{36525};
  const auto moment = measure::parse_iso_moment(*set);
  if (!moment) {
    return measure::Mistake{*set, fmt::format("ROUNDBOOK_NOW is {}, which is no moment with its "
                                              "offset; write it like 2027-05-03T07:15:00-07:00",
                                              measure::quoted(*set))};
  }
  if (*moment < now - kCentury || *moment > now + kCentury) {
    return measure::Mistake{*set, fmt::format("ROUNDBOOK_NOW is {}, more than a century from this "
                                              "computer's clock",
                                              measure::quoted(*set))};
  }
  return *moment;
}

bool reader_is_gone() {
  pollfd output{STDOUT_FILENO, POLLOUT, 0};
  return ::poll(&output, 1, 0) == 1 && (output.revents & POLLERR) != 0;
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
