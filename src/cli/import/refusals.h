#pragma once

#include <cstdint>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>
#include <vector>

namespace cli {

// The refused rows of an import: the first few for the answer, all of them into a file where one
// was asked for. The file gets its name at the end, and only over one of its own kind.
class Refusals {
 public:
  struct Refusal {
    std::uint64_t line;
    std::string why;
  };

  // An empty path: no file. Throws BookError where something else is there already, or where it
  // cannot be written.
  explicit Refusals(std::filesystem::path path);
  ~Refusals();
  Refusals(const Refusals&) = delete;
  Refusals& operator=(const Refusals&) = delete;

  void add(std::uint64_t line, std::string_view why, std::string_view row);
  // All of them are on the disk, or a BookError says that they cannot be. To be called before what
  // was taken is kept: the file is the only place that says what was not.
  void finish();
  // Puts the file in place; where nothing was refused there is none.
  void keep();

  std::uint64_t count() const { return count_; }
  const std::vector<Refusal>& shown() const { return shown_; }

 private:
  std::filesystem::path path_, draft_;
  std::ofstream file_;
  std::uint64_t count_ = 0;
  std::vector<Refusal> shown_;
};

}  // namespace cli
