#include "render/text.h"

#include <utf8proc.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace render {
namespace {

// The bytes of the character at the start of the text and its columns.
struct Character {
  std::size_t bytes;
  std::size_t width;
};

Character first_character(std::string_view text) {
  utf8proc_int32_t point{};
  const auto bytes = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                      static_cast<utf8proc_ssize_t>(text.size()), &point);
  if (bytes <= 0) return {1, 1};
  const int width = utf8proc_charwidth(point);
  return {static_cast<std::size_t>(bytes), static_cast<std::size_t>(std::max(width, 0))};
}

}  // namespace

std::size_t columns(std::string_view text) {
  std::size_t width = 0;
  while (!text.empty()) {
    const Character character = first_character(text);
    width += character.width;
    text.remove_prefix(character.bytes);
  }
  return width;
}

std::string padded(std::string_view text, std::size_t width, bool right) {
  const std::size_t has = columns(text);
  const std::string space(width > has ? width - has : 0, ' ');
  return right ? space + std::string(text) : std::string(text) + space;
}

std::string cut(std::string_view text, std::size_t width) {
  if (columns(text) <= width) return std::string(text);
  std::string out;
  std::size_t used = 0;
  while (!text.empty()) {
    const Character character = first_character(text);
    if (used + character.width + 1 > width) break;
    out += text.substr(0, character.bytes);
    used += character.width;
    text.remove_prefix(character.bytes);
  }
  return out + "…";
}

std::string wrapped(std::string_view text, std::size_t width, std::size_t indent) {
  const std::size_t first = std::min(text.find_first_not_of(' '), text.size());
  std::string out(text.substr(0, first));
  text.remove_prefix(first);
  std::size_t used = first;
  bool starts_line = true;
  while (!text.empty()) {
    const std::size_t space = text.find(' ');
    const std::string_view word = text.substr(0, space);
    const std::size_t size = columns(word);
    if (!starts_line && used + 1 + size > width) {
      out += '\n' + std::string(indent, ' ');
      used = indent;
    } else if (!starts_line) {
      out += ' ';
      ++used;
    }
    starts_line = false;
    out += word;
    used += size;
    text = space == std::string_view::npos ? std::string_view() : text.substr(space + 1);
  }
  return out;
}

std::string bar(double share, std::size_t width) {
  static constexpr std::array<std::string_view, 8> kParts{"", "▏", "▎", "▍", "▌", "▋", "▊", "▉"};
  const double eighths = std::clamp(share, 0.0, 1.0) * static_cast<double>(width * 8);
  const auto whole = static_cast<std::size_t>(std::lround(eighths));
  std::string drawn;
  for (std::size_t i = 0; i < whole / 8; ++i) drawn += "█";
  drawn += kParts[whole % 8];
  return drawn;
}

std::string Table::text(std::size_t width, std::size_t indent) const {
  std::vector<std::size_t> widths(columns_.size(), 0);
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    widths[i] = columns(columns_[i].header);
    for (const auto& row : rows_) widths[i] = std::max(widths[i], columns(row[i]));
  }
  const auto line = [&](const auto& cell_of) {
    std::string made(indent, ' ');
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      const bool last = i + 1 == columns_.size();
      if (i > 0) made += "  ";
      const std::string cell = cell_of(i);
      if (last && !columns_[i].right) {
        const std::size_t at = columns(made);
        made += cut(cell, width > at ? width - at : 10);
      } else {
        made += padded(cell, widths[i], columns_[i].right);
      }
    }
    while (!made.empty() && made.back() == ' ') made.pop_back();
    return made + '\n';
  };
  std::string out;
  const bool headed = std::any_of(columns_.begin(), columns_.end(),
                                  [](const Column& column) { return !column.header.empty(); });
  if (headed) out += line([&](std::size_t i) { return columns_[i].header; });
  for (const auto& row : rows_) out += line([&](std::size_t i) { return row[i]; });
  return out;
}

}  // namespace render
