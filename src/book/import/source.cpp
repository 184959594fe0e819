#include "book/import/source.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>

#include "book/file/error.h"
#include "measure/text.h"

namespace book {
namespace {

constexpr std::size_t kBlock = std::size_t{256} * 1024;

// FNV-1a, 64 bits (Fowler, Noll and Vo; draft-eastlake-fnv): to tell files apart, not to guard
// them.
std::uint64_t hash_of(std::string_view bytes) {
  std::uint64_t hash = 0xcbf29ce484222325U;
  for (const char c : bytes) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3U;
  return hash;
}

std::string bytes_at(int handle, std::uint64_t at, std::size_t count) {
  std::string bytes(count, '\0');
  const ssize_t got = ::pread(handle, bytes.data(), count, static_cast<off_t>(at));
  bytes.resize(static_cast<std::size_t>(std::max<ssize_t>(got, 0)));
  return bytes;
}

}  // namespace

ImportSource::~ImportSource() {
  if (handle_ > STDIN_FILENO) ::close(handle_);
}

measure::Result<std::shared_ptr<ImportSource>> ImportSource::open(const std::string& path) {
  const int handle = path == "-" ? STDIN_FILENO : ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (handle < 0) {
    return measure::Mistake{
        path, fmt::format("{} cannot be read: {}", measure::quoted(path), std::strerror(errno))};
  }
  std::shared_ptr<ImportSource> source(new ImportSource(handle));
  struct stat status {};
  if (::fstat(handle, &status) == 0) {
    if (S_ISDIR(status.st_mode)) {
      return measure::Mistake{path,
                              fmt::format("{} is a folder, not a file", measure::quoted(path))};
    }
    if (S_ISREG(status.st_mode) && path != "-") {
      source->size_ = static_cast<std::uint64_t>(status.st_size);
    }
  }
  std::string head;
  while (head.size() < kBlock && source->read_block(head)) {
  }
  source->encoding_ = sniff_encoding(head);
  const std::size_t mark = byte_order_mark(head, source->encoding_);
  source->raw_ = head.substr(mark);
  source->used_ = mark;
  source->raw_.erase(0, append_utf8(source->raw_, source->encoding_, source->buffer_));
  return source;
}

// Appends a block to `raw`; false: there is no more.
bool ImportSource::read_block(std::string& raw) {
  const std::size_t had = raw.size();
  raw.resize(had + kBlock);
  const ssize_t got = ::read(handle_, raw.data() + had, kBlock);
  if (got < 0 &&
      errno == EINTR) {  // Ctrl-C: nothing this time, and the caller looks whether to go on
    raw.resize(had);
    return true;
  }
  if (got < 0) {
    throw BookError(fmt::format("the file cannot be read on: {}", std::strerror(errno)));
  }
  raw.resize(had + static_cast<std::size_t>(got));
  at_end_ = got == 0;
  return !at_end_;
}

void ImportSource::use(std::size_t bytes) {
  from_ += bytes;
  used_ += bytes;
}

bool ImportSource::more() {
  buffer_.erase(0, from_);
  from_ = 0;
  if (encoding_ == Encoding::kUtf8) return read_block(buffer_);
  const bool any = read_block(raw_);
  raw_.erase(0, append_utf8(raw_, encoding_, buffer_));
  return any;
}

void ImportSource::go_to(std::uint64_t bytes) {
  ::lseek(handle_, static_cast<off_t>(bytes), SEEK_SET);
  buffer_.clear();
  from_ = 0;
  used_ = bytes;
  at_end_ = false;
}

std::string ImportSource::print_of(std::uint64_t until) const {
  const std::uint64_t first = std::min<std::uint64_t>(until, 4096);
  const std::uint64_t last = std::min<std::uint64_t>(until, 256);
  return fmt::format("{:016x}{:016x}", hash_of(bytes_at(handle_, 0, first)),
                     hash_of(bytes_at(handle_, until - last, last)));
}

}  // namespace book
