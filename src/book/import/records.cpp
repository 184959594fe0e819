#include "book/import/records.h"

#include <cstring>

namespace book {

std::size_t Records::next(std::string_view text, bool at_end) {
  fields_.clear();
  unclosed_ = false;
  if (text.empty()) return 0;
  const void* end = std::memchr(text.data(), '\n', text.size());
  if (end == nullptr && !at_end) return 0;
  const std::size_t length =
      end == nullptr ? text.size()
                     : static_cast<std::size_t>(static_cast<const char*>(end) - text.data());
  std::string_view line = text.substr(0, length);
  if (std::memchr(line.data(), '"', line.size()) != nullptr) return quoted(text, at_end);
  lines_ = end == nullptr ? 0 : 1;
  const std::size_t used = length + lines_;
  if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
  for (;;) {
    const std::size_t cut = line.find(delimiter_);
    fields_.push_back(line.substr(0, cut));
    if (cut == std::string_view::npos) return used;
    line.remove_prefix(cut + 1);
  }
}

// The slow way, for a record with quotes in it. Unescaped text is collected in one string, and the
// fields point into it once it has stopped growing.
std::size_t Records::quoted(std::string_view text, bool at_end) {
  struct Piece {
    std::size_t begin, end;
  };
  std::vector<Piece> pieces;
  unescaped_.clear();
  lines_ = 0;
  std::size_t at = 0, begin = 0;
  bool inside = false, at_start = true, ended = false;
  while (at < text.size() && !ended) {
    const char c = text[at];
    if (inside) {
      if (c == '"') {
        if (at + 1 == text.size() && !at_end) return 0;
        if (at + 1 < text.size() && text[at + 1] == '"') {
          unescaped_ += '"';
          ++at;
        } else {
          inside = false;
        }
      } else {
        if (c == '\n' && ++lines_ > most_breaks_) return first_line(text);
        unescaped_ += c;
      }
    } else if (c == '"' && at_start) {
      inside = true;
      at_start = false;
    } else if (c == delimiter_) {
      pieces.push_back({begin, unescaped_.size()});
      begin = unescaped_.size();
      at_start = true;
    } else if (c == '\n') {
      ++lines_;
      ended = true;
    } else {
      unescaped_ += c;
      at_start = false;
    }
    ++at;
  }
  if (!ended && !at_end) return 0;
  if (inside && lines_ > 0) return first_line(text);
  unclosed_ = inside;
  if (ended && unescaped_.size() > begin && unescaped_.back() == '\r') unescaped_.pop_back();
  pieces.push_back({begin, unescaped_.size()});
  for (const Piece& piece : pieces) {
    fields_.push_back(std::string_view(unescaped_).substr(piece.begin, piece.end - piece.begin));
  }
  return at;
}

// The first line alone, as a record that cannot be read.
std::size_t Records::first_line(std::string_view text) {
  unclosed_ = true;
  lines_ = 1;
  return text.find('\n') + 1;
}

}  // namespace book
