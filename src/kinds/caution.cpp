#include "kinds/caution.h"

#include <algorithm>
#include <string>

#include "kinds/cautions.h"
#include "measure/text.h"
#include "model/danger.h"

namespace kinds {
namespace {

using Cases = std::vector<std::string_view>;

// The part of a moment before its case, and the case; empty: any.
struct Moment {
  std::string_view what;
  std::string_view only;
};

Moment parted(std::string_view text) {
  const std::size_t at = text.find('@');
  if (at == std::string_view::npos) return {text, {}};
  return {text.substr(0, at), text.substr(at + 1)};
}

template <class Meets>
bool has_moment(const model::Caution& caution, const Cases& cases, const Meets& meets) {
  for (const std::string& text : measure::split(caution.moments, ' ')) {
    const Moment moment = parted(text);
    if (!moment.only.empty() && std::find(cases.begin(), cases.end(), moment.only) == cases.end()) {
      continue;
    }
    if (meets(moment.what)) return true;
  }
  return false;
}

template <class Meets>
std::vector<const model::Caution*> matching(std::string_view kind, const Cases& cases,
                                            const Meets& meets) {
  std::vector<const model::Caution*> found;
  for (const model::Caution& one : cautions::kAll) {
    if (is_of(one, kind) && has_moment(one, cases, meets)) found.push_back(&one);
  }
  return found;
}

bool is_load(std::string_view what, std::string_view prefix, const model::Movement* load) {
  if (load == nullptr || what.substr(0, prefix.size()) != prefix) return false;
  const std::string_view stuff = what.substr(prefix.size());
  const model::Material& material = load->material;
  // A name of several words is written with hyphens in the table.
  std::string name = material.name;
  std::replace(name.begin(), name.end(), ' ', '-');
  return stuff == "*" || stuff == name || stuff == material.group || material.is(stuff) ||
         (stuff == "manure" && !load->manure.empty());
}

}  // namespace

std::span<const model::Caution> all_cautions() {
  return cautions::kAll;
}

const model::Caution* find_caution(std::string_view id) {
  for (const model::Caution& one : cautions::kAll) {
    if (one.id == id) return &one;
  }
  return nullptr;
}

bool is_of(const model::Caution& caution, std::string_view kind) {
  const auto kinds = measure::split(caution.kinds, ' ');
  return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

std::vector<const model::Caution*> cautions_of(const model::Finding& finding) {
  const std::string moment = "rule:" + finding.rule;
  return matching(finding.kind, {finding.case_of},
                  [&](std::string_view what) { return what == moment; });
}

std::vector<const model::Caution*> cautions_at(const Handled& handled, const Study& study) {
  return matching(
      study.history().batch.kind, study.circumstances(handled), [&](std::string_view what) {
        if (what == "start") return handled.starts;
        if (what == "end") return handled.ends;
        constexpr std::string_view kLog = "log:";
        if (what.substr(0, kLog.size()) == kLog) {
          const auto& logged = handled.logged;
          return std::find(logged.begin(), logged.end(), what.substr(kLog.size())) != logged.end();
        }
        return is_load(what, "add:", handled.in) || is_load(what, "take:", handled.out);
      });
}

std::vector<const model::Caution*> cautions_of_note(std::string_view note, const Study& study) {
  std::vector<std::string> moments;
  for (const model::Danger danger : model::dangers_in(note))
    moments.push_back("note:" + std::string(model::word(danger)));
  if (moments.empty()) return {};
  return matching(study.history().batch.kind, study.circumstances({}), [&](std::string_view what) {
    return std::find(moments.begin(), moments.end(), what) != moments.end();
  });
}

}  // namespace kinds
