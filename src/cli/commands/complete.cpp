#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <ostream>

#include "book/file/error.h"
#include "book/read/people.h"
#include "cli/desk/desk.h"
#include "cli/shell/commands.h"
#include "cli/shell/environment.h"
#include "cli/shell/manual.h"
#include "cli/shell/shell_scripts.h"
#include "measure/text.h"

namespace cli {
namespace {

struct Candidate {
  std::string word;
  std::string meaning = {};
};
using Candidates = std::vector<Candidate>;

// What a place in a command's usage wants: "CODE", "KIND", "key=value", ...
struct Slots {
  std::vector<std::string> names;
  bool last_repeats = false;

  std::string_view at(std::size_t position) const {
    if (position < names.size()) return names[position];
    return last_repeats && !names.empty() ? std::string_view(names.back()) : "";
  }
};

Slots slots_of(std::string_view usage) {
  Slots slots;
  for (std::string token : measure::split(usage, ' ')) {
    std::erase_if(token, [](char c) { return c == '[' || c == ']' || c == '|'; });
    if (token.starts_with("--") || token == "options") break;
    const bool repeats = token == "...";
    if (repeats) slots.last_repeats = true;
    const bool names =
        token == "key=value" || (!token.empty() && token[0] >= 'A' && token[0] <= 'Z');
    if (names && !repeats) {
      slots.names.push_back(token);
      slots.last_repeats = false;
    }
  }
  // "coffee grounds": the last may be of several words.
  slots.last_repeats =
      slots.last_repeats || (!slots.names.empty() && slots.names.back() == "MATERIAL");
  return slots;
}

const Command* command_named(std::string_view name) {
  for (const Command& one : all_commands()) {
    if (one.name == name) return &one;
  }
  return nullptr;
}

// What was typed before the word in question, by its sort.
struct TypedSoFar {
  const Command* command = nullptr;
  std::vector<std::string> words;  // behind the command
  std::string wants;               // the option whose value comes next; empty: none
  std::optional<std::string> book;
};

bool takes_value(const Command* command, const std::string& option) {
  constexpr std::array<std::string_view, 4> kGlobal{"--book", "--units", "--as-of", "--who"};
  if (std::find(kGlobal.begin(), kGlobal.end(), option) != kGlobal.end()) return true;
  if (command == nullptr) return false;
  return std::any_of(command->options.begin(), command->options.end(), [&](const Option& one) {
    return !one.value.empty() && option == "--" + std::string(one.name);
  });
}

TypedSoFar read_typed(const std::vector<std::string>& words) {
  TypedSoFar typed;
  for (std::size_t i = 0; i + 1 < words.size(); ++i) {
    const std::string& word = words[i];
    if (word.starts_with("--")) {
      if (word.starts_with("--book=")) typed.book = word.substr(7);
      if (!takes_value(typed.command, word)) continue;
      if (i + 2 == words.size()) {
        typed.wants = word;
      } else if (word == "--book") {
        typed.book = words[i + 1];
      }
      ++i;
    } else if (typed.command == nullptr) {
      typed.command = command_named(word);
    } else {
      typed.words.push_back(word);
    }
  }
  return typed;
}

class Completer {
 public:
  explicit Completer(const std::vector<std::string>& words)
      : typed_(read_typed(words)), word_(words.back()) {
    const auto path = logbook_path(typed_.book);
    if (!path) return;
    try {
      book_.emplace(*path, book::Access::kRead);
    } catch (const book::BookError&) {
      // No logbook, or none that can be read: what the program itself knows is still offered.
    }
  }

  Candidates all() const {
    Candidates found = offered();
    std::erase_if(found, [&](const Candidate& one) { return !one.word.starts_with(word_); });
    std::sort(found.begin(), found.end(),
              [](const Candidate& a, const Candidate& b) { return a.word < b.word; });
    const auto same = [](const Candidate& a, const Candidate& b) { return a.word == b.word; };
    found.erase(std::unique(found.begin(), found.end(), same), found.end());
    return found;
  }

 private:
  Candidates offered() const {
    if (!typed_.wants.empty()) return values_of(typed_.wants);
    if (word_.starts_with("-")) return options();
    if (typed_.command == nullptr) return commands();
    const std::string_view slot = slots_of(typed_.command->usage).at(typed_.words.size());
    return of(slot);
  }

  static Candidates commands() {
    Candidates found;
    for (const Command& one : all_commands()) {
      found.push_back({std::string(one.name), std::string(one.summary)});
    }
    return found;
  }

  Candidates options() const {
    Candidates found{
        {"--book", "the logbook"}, {"--json"}, {"--units"}, {"--no-color"}, {"--help"}};
    if (typed_.command == nullptr) return found;
    for (const Option& one : typed_.command->options) {
      found.push_back({"--" + std::string(one.name), std::string(one.help)});
    }
    if (typed_.command->judges) found.push_back({"--as-of"});
    if (typed_.command->needs == Needs::kWriting) {
      found.push_back({"--who"});
      found.push_back({"--new-who"});
    }
    return found;
  }

  // By the name of an option and of its value.
  Candidates values_of(const std::string& option) const {
    if (option == "--units") return {{"us"}, {"metric"}};
    if (option == "--who") return people();
    if (option == "--place") return places();
    if (option == "--as-of") return of("WHEN");
    if (typed_.command == nullptr) return {};
    for (const Option& one : typed_.command->options) {
      if (option == "--" + std::string(one.name)) return of(one.value);
    }
    return {};
  }

  Candidates of(std::string_view slot) const {
    if (slot == "CODE" || slot == "PILE" || slot == "N") return codes();
    if (slot == "KIND") return kinds();
    if (slot == "key=value") return settings();
    if (slot == "WORD") return words();
    if (slot.starts_with("MATERIAL") || slot == "PRODUCT") return materials();
    if (slot == "PLACE") return places();
    if (slot == "NAME") return typed_.command->run == run_place ? places() : materials();
    if (slot == "WHEN")
      return {{"now"}, {"today"}, {"yesterday"}, {"mon"}, {"tue"},
              {"wed"}, {"thu"},   {"fri"},       {"sat"}, {"sun"}};
    return {};
  }

  Candidates codes() const {
    Candidates found;
    if (!book_) return found;
    for (const model::Batch& one : book::all_batches(*book_)) {
      if (!one.ended) found.push_back({one.code, one.kind});
    }
    return found;
  }

  static Candidates kinds() {
    Candidates found;
    for (const kinds::Kind* one : kinds::all_kinds()) {
      found.push_back({std::string(one->name), std::string(one->meaning)});
    }
    return found;
  }

  const kinds::Kind* kind() const {
    if (typed_.words.empty()) return nullptr;
    if (const kinds::Kind* named = kinds::find_kind(typed_.words[0])) return named;
    const auto batch = book_ ? book::find_batch(*book_, typed_.words[0]) : std::nullopt;
    return batch ? kinds::find_kind(batch->kind) : nullptr;
  }

  Candidates settings() const {
    Candidates found;
    const kinds::Kind* of = kind();
    if (of == nullptr) return found;
    for (const kinds::SettingSpec& one : of->vocabulary.settings) {
      const std::string key = std::string(one.key) + "=";
      const bool is_choice = !one.choices.empty() && one.choices != "text" && one.choices != "date";
      if (!is_choice || !word_.starts_with(key)) {
        found.push_back({key, std::string(one.meaning)});
        continue;
      }
      for (const std::string& choice : measure::split(one.choices, ' ')) {
        found.push_back({key + choice});
      }
    }
    return found;
  }

  Candidates words() const {
    Candidates found;
    const kinds::Kind* of = kind();
    if (of == nullptr) return found;
    for (const kinds::Quantity& one : of->vocabulary.quantities) {
      found.push_back({std::string(one.name) + "=", std::string(one.meaning)});
    }
    for (const std::string& one : measure::split(of->vocabulary.positions, ' ')) {
      if (!one.empty()) found.push_back({one + "="});
    }
    for (const kinds::Word& one : of->vocabulary.words) {
      found.push_back({std::string(one.word), std::string(one.meaning)});
    }
    return found;
  }

  // A hyphen stands for a space, so that nothing has to be quoted.
  Candidates materials() const {
    Candidates found;
    if (!book_) return found;
    const book::Materials materials(*book_);
    for (const model::Material& one : materials.all()) {
      std::string name = one.name;
      std::replace(name.begin(), name.end(), ' ', '-');
      found.push_back({name, one.group});
    }
    return found;
  }

  Candidates places() const {
    Candidates found;
    if (!book_) return found;
    for (const std::string& one : book::places(*book_)) found.push_back({one});
    return found;
  }

  Candidates people() const {
    Candidates found;
    if (!book_) return found;
    for (const std::string& one : book::people(*book_)) found.push_back({one});
    return found;
  }

  TypedSoFar typed_;
  std::string word_;
  std::optional<book::Logbook> book_;
};

}  // namespace

Outcome run_complete(Context& context, const Arguments& arguments) {
  const std::vector<std::string>& words = arguments.words;
  if (words.empty()) {
    return measure::Mistake{"", "complete takes bash, zsh, fish or man"};
  }
  if (words[0] == "next" && words.size() > 1) {
    for (const Candidate& one : Completer({words.begin() + 1, words.end()}).all()) {
      context.out << one.word << '\t' << one.meaning << '\n';
    }
    return kDone;
  }
  if (words[0] == "man" && words.size() == 1) {
    context.out << manual_page();
    return kDone;
  }
  for (const ShellScript& one : kShellScripts) {
    if (one.shell != words[0] || words.size() > 1) continue;
    context.out << one.text;
    return kDone;
  }
  return measure::Mistake{words[0], fmt::format("complete takes bash, zsh, fish or man, not {}",
                                                measure::quoted(measure::joined(words, " ")))};
}

}  // namespace cli
