#include "model/statement.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <vector>

#include "measure/text.h"
#include "model/material_groups.h"

namespace model {
namespace {

using measure::Mistake;

struct Process {
  std::string_view begins;  // as typed, folded, with blanks for hyphens
  std::string_view law;
};
constexpr std::string_view kVessel = "7 CFR 205.203(c)(2)(ii)";
constexpr std::string_view kWindrow = "7 CFR 205.203(c)(2)(iii)";
constexpr std::string_view kHeat = "21 CFR 112.54(a); NOP 5006";
// Turned windrows are (c)(2)(iii) and 21 CFR 112.54(b)(2), the others (c)(2)(ii) and 112.54(b)(1).
constexpr std::array kProcesses{
    Process{"windrow", kWindrow},       Process{"turned windrow", kWindrow},
    Process{"turned pile", kWindrow},   Process{"vessel", kVessel},
    Process{"in vessel", kVessel},      Process{"static", kVessel},
    Process{"aerated static", kVessel}, Process{"heated", kHeat},
    Process{"heat treated", kHeat},     Process{"pasteurized", kHeat},
    Process{"pasteurised", kHeat},
};

constexpr std::array kDoubts = std::to_array<std::string_view>(
    {"not",     "no",      "never",   "none",      "nobody",    "nothing",     "unknown",
     "without", "maybe",   "perhaps", "probably",  "hopefully", "pending",     "unsure",
     "unclear", "claimed", "claims",  "soon",      "later",     "will",        "ask",
     "tbd",     "todo",    "cannot",  "untreated", "raw",       "uncomposted", "unheated"});

constexpr std::string_view kExample = "'Hill Farm, turned windrow 15 days, 2027-03-20'";

std::vector<std::string> words_of(const std::string& part) {
  std::string spaced = part;
  std::replace_if(
      spaced.begin(), spaced.end(),
      [](char c) { return c == ':' || c == ';' || c == '(' || c == ')' || c == '"'; }, ' ');
  return measure::split(spaced, ' ');
}

bool is_doubt(std::string word) {
  if (word != "no." && word.ends_with('.')) word.pop_back();  // "No. 7 Farm" doubts nothing
  return word.find('?') != std::string::npos || word.ends_with("n't") || word.ends_with("n’t") ||
         std::find(kDoubts.begin(), kDoubts.end(), word) != kDoubts.end();
}

// At least two letters that can be seen: a blank of no width names nobody.
bool names_someone(std::string_view part) {
  int letters = 0;
  for (const char c : part) {
    const auto byte = static_cast<unsigned char>(c);
    const bool latin = (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z');
    // The first byte of a letter of another alphabet in UTF-8; 0xC2 and 0xE2 begin signs and
    // blanks.
    const bool other = (byte >= 0xC3 && byte <= 0xDF) || byte == 0xE0 || byte == 0xE1 ||
                       (byte >= 0xE3 && byte <= 0xED);
    if (latin || other) ++letters;
  }
  return letters >= 2;
}

std::string_view law_of(std::string part) {
  std::replace(part.begin(), part.end(), '-', ' ');
  for (const Process& one : kProcesses) {
    const bool begins = part.starts_with(one.begins);
    if (begins && (part.size() == one.begins.size() || part[one.begins.size()] == ' ')) {
      return one.law;
    }
  }
  return {};
}

std::optional<measure::Day> day_in(const std::vector<std::string>& words) {
  for (const std::string& word : words) {
    if (const auto day = measure::parse_iso_date(word)) return day;
  }
  return std::nullopt;
}

void set_flag(Material& material, const char* flag, bool is) {
  std::erase(material.flags, flag);
  if (is) material.flags.emplace_back(flag);
}

}  // namespace

measure::Result<Statement> read_statement(std::string_view text) {
  Statement read;
  std::optional<measure::Day> when;
  const auto wrong = [&](std::string_view lacking) {
    return Mistake{
        std::string(text),
        fmt::format("{} is no statement of treatment: {}. A statement names who says so, "
                    "by what process (windrow, vessel, static, heated) and the day, "
                    "like {}",
                    measure::quoted(text), lacking, kExample)};
  };
  std::string plain(text);
  std::replace(plain.begin(), plain.end(), ';', ',');
  for (const std::string& typed : measure::split(plain, ',')) {
    const std::string part = measure::folded(typed);
    const std::vector<std::string> words = words_of(part);
    const auto doubt = std::find_if(words.begin(), words.end(), is_doubt);
    if (doubt != words.end()) return wrong(fmt::format("it says {}", measure::quoted(*doubt)));
    if (const auto day = day_in(words); day && !when) {
      when = day;
    } else if (const auto law = law_of(part); !law.empty() && read.process.empty()) {
      read.process = typed;
      read.law = law;
    } else if (read.who.empty() && names_someone(part)) {
      read.who = typed;
    }
  }
  if (read.who.empty()) return wrong("it does not name who says so");
  if (read.process.empty()) return wrong("it names no process of the rule");
  if (!when) return wrong("it has no day");
  read.when = *when;
  return read;
}

void state_treatment(Material& material, std::string_view text) {
  const bool treated = static_cast<bool>(read_statement(text));
  material.statement = treated ? std::string(text) : "";
  set_flag(material, "treated", treated);
  if (material.group == group::kCompost) set_flag(material, "unproven", !treated);
  if (material.group == group::kManure || material.group == group::kEffluent) {
    set_flag(material, "manure", !treated);
  }
}

}  // namespace model
