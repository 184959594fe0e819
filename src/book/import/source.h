#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "book/import/text.h"
#include "measure/result.h"

namespace book {

// The text of a file, or of standard input, read block by block as UTF-8.
class ImportSource {
 public:
  // "-": standard input. A mistake where it cannot be read.
  static measure::Result<std::shared_ptr<ImportSource>> open(const std::string& path);
  ~ImportSource();
  ImportSource(const ImportSource&) = delete;
  ImportSource& operator=(const ImportSource&) = delete;

  // What has been read and not been used. It holds until the next call of use() or more().
  std::string_view text() const { return std::string_view(buffer_).substr(from_); }
  void use(std::size_t bytes);
  // Reads another block; false: there is no more.
  bool more();
  bool at_end() const { return at_end_; }

  // Goes to a byte of the file, past all that was read. Only where resumable().
  void go_to(std::uint64_t bytes);
  // Whether a byte of text() is a byte of the file, so that it can be gone on with later: a file in
  // UTF-8.
  bool resumable() const { return size_ && encoding_ == Encoding::kUtf8; }
  std::uint64_t used() const { return used_; }  // bytes of the file up to text()
  std::optional<std::uint64_t> size() const { return size_; }
  Encoding encoding() const { return encoding_; }

  // Tells a file by its first 4096 and last 256 bytes up to a byte of it.
  std::string print_of(std::uint64_t until) const;

 private:
  explicit ImportSource(int handle) : handle_(handle) {}
  bool read_block(std::string& raw);

  int handle_;
  Encoding encoding_ = Encoding::kUtf8;
  std::optional<std::uint64_t> size_;  // of a regular file
  std::string buffer_, raw_;
  std::size_t from_ = 0;
  std::uint64_t used_ = 0;
  bool at_end_ = false;
};

}  // namespace book
