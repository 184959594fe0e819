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

std::string moment_of(std::string_view danger) {
  return "note:" + std::string(danger);
}

// Whether that is one of its moments, in whatever case.
bool has_moment(const model::Caution& caution, std::string_view what) {
  const auto moments = measure::split(caution.moments, ' ');
  return std::any_of(moments.begin(), moments.end(),
                     [&](const std::string& one) { return parted(one).what == what; });
}

// The kind's own rows; where it has none, the first of another's: it is meant of people.
std::vector<const model::Caution*> of_danger(std::string_view danger, std::string_view kind,
                                             const Cases& cases) {
  const std::string moment = moment_of(danger);
  auto own = matching(kind, cases, [&](std::string_view what) { return what == moment; });
  if (!own.empty()) return own;
  for (const model::Caution& one : cautions::kAll) {
    if (has_moment(one, moment)) return {&one};
  }
  return {};
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
  return measure::is_among(caution.kinds, kind);
}

std::vector<const model::Caution*> cautions_of(const model::Finding& finding) {
  if (finding.remarked) return of_danger(finding.case_of, finding.kind, {});
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

bool is_minded(model::Danger danger, std::string_view kind) {
  const std::string moment = moment_of(model::word(danger));
  return model::is_everywhere(danger) ||
         std::any_of(std::begin(cautions::kAll), std::end(cautions::kAll),
                     [&](const auto& one) { return is_of(one, kind) && has_moment(one, moment); });
}

std::vector<const model::Caution*> cautions_of_note(std::string_view note, const Study& study) {
  std::vector<const model::Caution*> all;
  for (const model::Danger danger : model::dangers_in(note)) {
    if (!is_minded(danger, study.history().batch.kind)) continue;
    for (const model::Caution* one :
         of_danger(model::word(danger), study.history().batch.kind, study.circumstances({}))) {
      if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(one);
    }
  }
  return all;
}

}  // namespace kinds
