#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "measure/text.h"
#include "model/material_groups.h"
#include "season/report_parts.h"

// Between whom it went, and which nutrients crossed the site's edge with it.
namespace season {
namespace {

const std::string kOutside = "outside";
const std::string kAway = "away, or used";

// The ends in the order in which they first meet on a walk from outside, so that neighbours in the
// picture are neighbours in the work.
std::vector<std::string> ends_in_order(
    const std::map<std::pair<std::string, std::string>, Sum>& links) {
  std::vector<std::string> ends{kOutside};
  const auto add = [&](const std::string& end) {
    if (end != kAway && std::find(ends.begin(), ends.end(), end) == ends.end()) ends.push_back(end);
  };
  for (std::size_t i = 0; i < ends.size(); ++i) {
    for (const auto& [key, sum] : links) {
      if (key.first == ends[i]) add(key.second);
    }
  }
  for (const auto& [key, sum] : links) {  // what nothing from outside reached in these days
    add(key.first);
    add(key.second);
  }
  const bool has_away = std::any_of(links.begin(), links.end(),
                                    [](const auto& one) { return one.first.second == kAway; });
  if (has_away) ends.push_back(kAway);
  return ends;
}

// The shortest way from `start` along the links back to it; empty where there is none.
std::vector<std::size_t> loop_from(std::size_t start, const FlowPicture& picture) {
  std::map<std::size_t, std::size_t> came_from;
  std::vector<std::size_t> wave{start};
  while (!wave.empty()) {
    std::vector<std::size_t> next;
    for (const std::size_t at : wave) {
      for (const FlowPicture::Link& link : picture.links) {
        if (link.from != at) continue;
        if (link.to == start) {
          std::vector<std::size_t> way{at};
          while (way.back() != start) way.push_back(came_from[way.back()]);
          std::reverse(way.begin(), way.end());
          return way;
        }
        if (came_from.emplace(link.to, at).second) next.push_back(link.to);
      }
    }
    wave = std::move(next);
  }
  return {};
}

std::vector<std::string> loops_of(const FlowPicture& picture) {
  std::vector<std::string> said;
  std::set<std::set<std::size_t>> known;
  for (std::size_t start = 0; start < picture.ends.size(); ++start) {
    const auto way = loop_from(start, picture);
    if (way.empty() || !known.insert({way.begin(), way.end()}).second) continue;
    std::string words;
    for (const std::size_t at : way) words += picture.ends[at] + " to ";
    said.push_back(words + picture.ends[start]);
  }
  return said;
}

FlowPicture picture_of(const ReportWords& words) {
  std::map<std::pair<std::string, std::string>, Sum> links;
  for (const model::Movement& one : words.input.movements) {
    if (!one.mass() || one.material.group == model::group::kWater) continue;
    links[{one.from.empty() ? kOutside : one.from_kind, one.to.empty() ? kAway : one.to_kind}].add(
        one);
  }
  FlowPicture picture{ends_in_order(links), {}, ""};
  const auto index_of = [&](const std::string& end) {
    return static_cast<std::size_t>(std::find(picture.ends.begin(), picture.ends.end(), end) -
                                    picture.ends.begin());
  };
  std::vector<std::string> said;
  for (const auto& [key, sum] : links) {
    picture.links.push_back(
        {index_of(key.first), index_of(key.second), sum.mass.value, mass_words(sum, words.print)});
  }
  std::sort(picture.links.begin(), picture.links.end(),
            [](const auto& a, const auto& b) { return a.kilograms > b.kilograms; });
  for (const FlowPicture::Link& link : picture.links) {
    said.push_back(fmt::format("{} from {} to {}", link.shown, picture.ends[link.from],
                               picture.ends[link.to]));
  }
  const auto loops = loops_of(picture);
  picture.says = "Most first: " + measure::joined(said, "; ") + ". " +
                 (loops.empty() ? "Nothing comes round to where it began."
                                : "It goes round: " + measure::joined(loops, "; ") + ".");
  return picture;
}

// What a mass of a material holds of an element; none where a figure is missing.
std::optional<double> held(const model::Movement& one, std::optional<measure::Fraction> share) {
  const auto mass = one.mass();
  const auto moisture = one.material.moisture();
  if (!mass || !moisture || !share) return std::nullopt;
  return mass->value * (1 - moisture->value) * share->value;
}

struct Element {
  const char* key;
  const char* name;
  std::optional<measure::Fraction> (*share)(const model::Material&);
};
const Element kElements[] = {
    {"nitrogen", "nitrogen (N)", [](const model::Material& one) { return one.nitrogen(); }},
    {"phosphorus", "phosphorus (P)",
     [](const model::Material& one) { return one.share(model::Property::kPhosphorus); }},
    {"potassium", "potassium (K)",
     [](const model::Material& one) { return one.share(model::Property::kPotassium); }},
    {"carbon", "carbon (C)", [](const model::Material& one) { return one.carbon(); }}};

// Water, and what is counted, is not looked for.
bool may_hold(const model::Movement& one) {
  return one.material.name != "water" && one.amount.dimension != measure::Dimension::kEnergy;
}

Figure element_figure(const Element& element, bool in, const ReportWords& words) {
  double kilograms = 0;
  std::set<std::string> missing;
  for (const model::Movement& one : words.input.movements) {
    if (!(in ? one.from : one.to).empty() || !may_hold(one)) continue;
    if (const auto mass = held(one, element.share(one.material))) {
      kilograms += *mass;
    } else {
      missing.insert(one.material.name);
    }
  }
  Figure made;
  made.key = fmt::format("nutrients.{}_{}", element.key, in ? "in" : "out");
  made.of = element.name;
  made.name = in ? "brought in" : "taken out";
  made.si = kilograms;
  made.unit = "kg";
  made.shown = "~" + words.print(measure::Kilograms{kilograms});
  made.estimated = true;
  made.basis = "by the materials' figures";
  if (!missing.empty()) {
    made.basis += "; leaves out, for want of a figure: " +
                  measure::joined(std::vector<std::string>(missing.begin(), missing.end()), ", ");
  }
  return made;
}

}  // namespace

Section section_flows(const ReportWords& words) {
  Section section{"flows", "What went where", {}, {}, {}, {}, {}, std::nullopt};
  const auto rows = flows(words.input.movements);
  if (rows.empty()) {
    section.says.emplace_back("Nothing was carried in these days.");
    return section;
  }
  FlowPicture picture = picture_of(words);
  if (!picture.links.empty()) section.flow = std::move(picture);
  ReportTable table{"flows",
                    "Every batch, what went in and what came out",
                    {{"batch", Role::kText},
                     {"", Role::kText},
                     {"material", Role::kText},
                     {"from or to", Role::kText},
                     {"weight", Role::kNumber},
                     {"not weighed", Role::kNumber}},
                    {},
                    false};
  for (const Flow& flow : rows) {
    const bool in = flow.side == Side::kIn;
    const std::string other = !flow.other.empty()    ? flow.other
                              : in                   ? "outside"
                              : flow.purpose.empty() ? "away"
                                                     : flow.purpose;
    const std::string of = fmt::format("{} {} {}, {} {}", flow.batch, in ? "in" : "out",
                                       flow.material, in ? "from" : "to", other);
    table.rows.push_back({text_cell(flow.batch), text_cell(in ? "in" : "out"),
                          text_cell(flow.material), text_cell(other),
                          mass_cell("flows.mass", of, flow.sum, words),
                          other_cell("flows.other", of, flow.sum, words)});
  }
  section.tables.push_back(std::move(table));
  return section;
}

Section section_nutrients(const ReportWords& words) {
  Section section{"nutrients", "Nutrients across the site's edge", {}, {}, {}, {}, {},
                  std::nullopt};
  ReportTable table{"nutrients",
                    "Elements in what was brought and in what was taken",
                    {{"element", Role::kText},
                     {"brought in", Role::kNumber},
                     {"taken out", Role::kNumber},
                     {"rests on", Role::kAside}},
                    {},
                    false};
  for (const Element& element : kElements) {
    const Figure in = element_figure(element, true, words);
    const Figure out = element_figure(element, false, words);
    std::string basis = in.basis;
    if (out.basis != in.basis) basis = "in: " + in.basis + ". Out: " + out.basis;
    table.rows.push_back(
        {text_cell(element.name), figure_cell(in), figure_cell(out), text_cell(basis)});
  }
  section.says.emplace_back(
      "Elements, not oxides. All of it is an estimate: mass times dry matter times the material's "
      "figure. What a batch loses to the air, and what stays in it, is not in this table.");
  section.tables.push_back(std::move(table));
  return section;
}

}  // namespace season
