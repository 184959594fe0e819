#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <ostream>

#include "book/write/pen.h"
#include "cli/desk/desk.h"
#include "cli/shell/commands.h"
#include "cli/words/log_words.h"
#include "measure/text.h"
#include "model/statement.h"
#include "render/json.h"
#include "render/text.h"
#include "science/gas/digestion.h"
#include "science/soil/nutrients.h"

namespace cli {
namespace {

using model::Material;
using model::PropertyInfo;

std::string figure_words(const model::Figure& figure) {
  const PropertyInfo& info = model::info(figure.property);
  return measure::Printer::labelled(figure.value / info.factor, info.unit);
}

render::Json json_of(const Material& material) {
  render::Json json{{"material", material.name},       {"group", material.group},
                    {"aliases", material.aliases},     {"flags", material.flags},
                    {"meaning", material.meaning},     {"statement", material.statement},
                    {"figures", render::Json::array()}};
  for (const model::Figure& figure : material.figures) {
    const PropertyInfo& info = model::info(figure.property);
    json["figures"].push_back({{"property", std::string(info.key)},
                               {"value", figure.value / info.factor},
                               {"unit", std::string(info.unit)},
                               {"source", figure.source}});
  }
  const auto carbon = material.impossible_carbon();
  json["impossible_carbon"] = carbon ? render::Json(carbon->value) : render::Json(nullptr);
  return json;
}

void list_materials(Context& context, const Desk& desk, const std::string& group) {
  std::map<std::string, std::vector<std::string>> groups;
  for (const Material& material : desk.materials().all()) {
    if (group.empty() || material.group == group) groups[material.group].push_back(material.name);
  }
  if (context.json) {
    render::Json rows = render::Json::array();
    for (const Material& material : desk.materials().all()) {
      if (group.empty() || material.group == group) rows.push_back(json_of(material));
    }
    context.out << render::dumped({{"materials", rows}});
    return;
  }
  for (const auto& [name, members] : groups) {
    context.out << render::wrapped(fmt::format("{}: {}", name, measure::joined(members, ", ")),
                                   static_cast<std::size_t>(context.width), 2)
                << '\n';
  }
}

void show_material(Context& context, const Material& material) {
  if (context.json) {
    context.out << render::dumped(json_of(material));
    return;
  }
  const auto width = static_cast<std::size_t>(context.width);
  std::ostream& out = context.out;
  std::string head = fmt::format("{} ({})", material.name, material.group);
  if (!material.meaning.empty()) head += ": " + material.meaning;
  out << render::wrapped(head, width, 2) << '\n';
  if (!material.aliases.empty()) {
    out << render::wrapped("  also: " + measure::joined(material.aliases, ", "), width, 4) << '\n';
  }
  if (!material.flags.empty()) {
    out << render::wrapped("  known as: " + measure::joined(material.flags, ", "), width, 4)
        << '\n';
  }
  if (!material.statement.empty()) {
    out << render::wrapped("  treated, by its supplier's statement: " + material.statement, width,
                           4)
        << '\n';
  }
  for (const model::Figure& figure : material.figures) {
    const PropertyInfo& info = model::info(figure.property);
    out << render::wrapped(fmt::format("  {:<16} {:<14} {}; [{}]", info.key, figure_words(figure),
                                       info.meaning, figure.source),
                           width, 19)
        << '\n';
  }
  if (const auto carbon = material.impossible_carbon()) {
    out << render::wrapped(
               fmt::format("  these figures make {:.0f} % carbon, more than dry matter can "
                           "hold: the carbon is left out of every sum until it is set",
                           carbon->value * 100),
               width, 2)
        << '\n';
  }
}

// As labels and many laboratories print phosphorus and potassium: an oxide, with the share of it
// that is the element.
struct Oxide {
  std::string_view key;
  model::Property element;
  measure::Fraction share;
};
constexpr std::array kOxides{
    Oxide{"p2o5", model::Property::kPhosphorus, science::kPhosphorusInPhosphate},
    Oxide{"phosphate", model::Property::kPhosphorus, science::kPhosphorusInPhosphate},
    Oxide{"k2o", model::Property::kPotassium, science::kPotassiumInPotash},
    Oxide{"potash", model::Property::kPotassium, science::kPotassiumInPotash},
};

const Oxide* find_oxide(std::string_view key) {
  const auto found = std::find_if(kOxides.begin(), kOxides.end(),
                                  [&](const Oxide& oxide) { return oxide.key == key; });
  return found == kOxides.end() ? nullptr : &*found;
}

measure::Result<model::Figure> figure_of(std::string_view word, const std::string& source) {
  const std::size_t equals = word.find('=');
  const std::string key = measure::folded(word.substr(0, equals));
  const Oxide* oxide = find_oxide(key);
  const PropertyInfo* info =
      oxide == nullptr ? model::find_property(key) : &model::info(oxide->element);
  if (equals == std::string_view::npos || info == nullptr) {
    std::vector<std::string> keys;
    for (const PropertyInfo& one : model::all_properties()) keys.emplace_back(one.key);
    for (const Oxide& one : kOxides) keys.emplace_back(one.key);
    return no_such("figure", key, keys);
  }
  std::string typed = measure::folded(word.substr(equals + 1));
  const std::string unit = measure::folded(info->unit);
  if (typed.ends_with(unit) && unit != "1") typed.resize(typed.size() - unit.size());
  double value{};
  if (info->property == model::Property::kBulkDensity && typed.ends_with("lb/yd3")) {
    typed.resize(typed.size() - std::string_view("lb/yd3").size());
    const auto number = measure::parse_number(typed);
    if (!number) return number.mistake();
    value = *number * measure::unit("lb").factor / measure::unit("yd3").factor * 1000;
  } else {
    const auto number = measure::parse_number(typed);
    if (!number) {
      return measure::Mistake{std::string(word), fmt::format("{} takes a number in {}, not {}", key,
                                                             info->unit, measure::quoted(typed))};
    }
    value = *number;
  }
  if (oxide != nullptr) value *= oxide->share.value;
  if (value < info->least || value > info->greatest) {
    return measure::Mistake{std::string(word),
                            fmt::format("{} cannot be {} {}; it lies from {} to {}", key,
                                        measure::print_number(value, 2), info->unit,
                                        measure::print_number(info->least, 2),
                                        measure::print_number(info->greatest, 2))};
  }
  return model::Figure{info->property, value * info->factor, source};
}

// With the six tenths of methane that gas usually holds, the whole gas of it is no more than the
// 1.44 m3 a kilogram of volatile solids that pure fat makes.
bool is_possible_without_fat(measure::Fraction methane) {
  constexpr double kLitres = 1000, kMethaneOfGas = 0.6;
  return science::gas_yield_is_possible(
      science::NormalLitresPerKilogram{methane.value * kLitres / kMethaneOfGas});
}

// A supplier's statement makes a material count as treated; without one, compost and manure of
// unknown making count as raw.
std::optional<measure::Mistake> set_statement(const Arguments& arguments, bool is_new,
                                              measure::Day today, Material& material) {
  const auto said = arguments.option("treated");
  if (said && !is_new) {
    for (const Material& one : model::catalogue()) {
      if (one.name != material.name) continue;
      return measure::Mistake{
          material.name,
          fmt::format(
              "a statement covers one supplier's material, not all {0}: 'roundbook material "
              "\"NAME of it\" --new --group {1} --treated ...' makes that a material of "
              "its own",
              material.name, material.group)};
    }
  }
  if (!said && is_new && material.is("treated")) {
    return measure::Mistake{
        "treated",
        "the flag treated needs its supplier's statement: --treated 'WHO, PROCESS, DAY' sets both"};
  }
  if (!said && !is_new) return std::nullopt;
  const bool withdrawn = !said || measure::folded(*said) == "none";
  if (!withdrawn) {
    const auto read = model::read_statement(*said);
    if (!read) return read.mistake();
    if (read->when > today) {
      return measure::Mistake{"treated",
                              fmt::format("the day of the statement, {}, has not come yet",
                                          measure::full_day_words(read->when))};
    }
  }
  model::state_treatment(material, withdrawn ? "" : *said);
  return std::nullopt;
}

std::vector<std::string> option_list(const Arguments& arguments, std::string_view name) {
  std::vector<std::string> list;
  for (const std::string& one : measure::split(arguments.option(name).value_or(""), ',')) {
    list.push_back(measure::folded(one));
  }
  return list;
}

// The words of the line: a name of several words, and figures ("moisture=60%").
struct Typed {
  std::string name;
  std::vector<std::string> figures;
};

Typed typed_of(const Arguments& arguments) {
  std::vector<std::string> name_words;
  Typed said;
  for (const std::string& word : arguments.words) {
    (word.find('=') == std::string::npos ? name_words : said.figures).push_back(word);
  }
  said.name = measure::folded(measure::joined(name_words, " "));
  return said;
}

std::vector<std::string> known_groups(const Desk& desk) {
  std::vector<std::string> groups;
  for (const Material& one : desk.materials().all()) groups.push_back(one.group);
  return groups;
}

bool holds(const std::vector<std::string>& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

// A material of the site's own, without its figures.
measure::Result<Material> new_material(const std::string& name, const Arguments& arguments,
                                       const Desk& desk) {
  Material material;
  material.name = name;
  material.group = measure::folded(arguments.option("group").value_or("other"));
  const auto groups = known_groups(desk);
  if (material.group != "other" && !holds(groups, material.group)) {
    return no_such("group", material.group, groups);
  }
  material.aliases = option_list(arguments, "alias");
  material.flags = option_list(arguments, "flag");
  std::vector<std::string> flags;
  for (const Material& one : desk.materials().all()) {
    flags.insert(flags.end(), one.flags.begin(), one.flags.end());
  }
  for (const std::string& flag : material.flags) {
    if (!holds(flags, flag)) return no_such("flag", flag, flags);
  }
  for (const std::string& alias : material.aliases) {
    if (const Material* other = desk.materials().find(alias)) {
      return measure::Mistake{
          alias, fmt::format("{} means {} already", measure::quoted(alias), other->name)};
    }
  }
  return material;
}

struct ReadFigures {
  std::vector<model::Figure> figures;
  std::vector<std::string> remarks;
};

measure::Result<ReadFigures> read_figures(const std::vector<std::string>& words,
                                          const std::string& source) {
  ReadFigures read;
  for (const std::string& word : words) {
    const auto figure = figure_of(word, source);
    if (!figure) return figure.mistake();
    const PropertyInfo& info = model::info(figure->property);
    if (info.unit != "1" && !has_unit(word.substr(word.find('=') + 1))) {
      read.remarks.push_back(
          fmt::format("{}: no unit given; taken as {}{}", info.key, figure_words(*figure),
                      info.property == model::Property::kBulkDensity ? ", not lb/yd3" : ""));
    }
    read.figures.push_back(*figure);
  }
  return read;
}

// What cannot be of the material with its figures as they would then be.
std::optional<measure::Mistake> impossible_figures(Material material,
                                                   const std::vector<model::Figure>& figures) {
  model::overlay(material, figures);
  const auto ammonium = material.share(model::Property::kAmmonium);
  const auto nitrogen = material.nitrogen();
  if (ammonium && nitrogen && *ammonium > *nitrogen) {
    return measure::Mistake{"ammonium",
                            "ammonium is part of the nitrogen and cannot be more of it"};
  }
  const auto methane = material.share(model::Property::kMethane);
  if (methane && !material.is("oil") && !is_possible_without_fat(*methane)) {
    return measure::Mistake{
        "methane",
        fmt::format("{} m3/kgVS of methane is more than anything but pure fat can give: a solids "
                    "figure that it was divided by is wrong (oils and greases have the flag oil)",
                    measure::print_number(methane->value, 3))};
  }
  return std::nullopt;
}

}  // namespace

Outcome run_material(Context& context, const Arguments& arguments) {
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  const Typed said = typed_of(arguments);
  if (said.name.empty() && said.figures.empty()) {
    list_materials(context, *desk, "");
    return kDone;
  }
  const Material* known = desk->materials().find(said.name);
  const bool is_new = arguments.flag("new");
  if (known == nullptr && !is_new) {
    if (!holds(known_groups(*desk), said.name)) return no_material(said.name, desk->materials());
    list_materials(context, *desk, said.name);
    return kDone;
  }
  if (is_new && said.name.empty()) {
    return measure::Mistake{
        "",
        "--new wants the material's name: 'roundbook material \"fish bran\" --new --group feed'"};
  }
  if (!is_new) {
    for (const char* option : {"group", "flag", "alias"}) {
      if (!arguments.option(option)) continue;
      return measure::Mistake{
          option,
          fmt::format("--{} is given when a material is made, with --new; {} stays as it is",
                      option, known->name)};
    }
  }
  if (is_new && known != nullptr) {
    return measure::Mistake{said.name, fmt::format("{} is a material already ({})",
                                                   measure::quoted(said.name), known->name)};
  }
  if (!is_new && said.figures.empty() && !arguments.option("treated")) {
    show_material(context, *known);
    return kDone;
  }

  const auto begun =
      is_new ? new_material(said.name, arguments, *desk) : measure::Result<Material>(*known);
  if (!begun) return begun.mistake();
  Material material = *begun;
  if (const auto why = set_statement(arguments, is_new, desk->today(), material)) return *why;
  const auto read = read_figures(
      said.figures,
      arguments.option("source").value_or("this site, " + measure::iso_date(desk->today())));
  if (!read) return read.mistake();
  if (const auto why = impossible_figures(material, read->figures)) return *why;

  book::Pen pen(*context.book, {context.who, "material", context.line, context.clock});
  if (is_new || arguments.option("treated")) pen.set_material(material);
  for (const model::Figure& figure : read->figures) pen.set_figure(material.name, figure);
  pen.commit();
  show_material(context, *book::Materials(desk->logbook()).find(material.name));
  if (!context.json) {
    for (const std::string& remark : read->remarks) context.out << "  " << remark << '\n';
  }
  return kDone;
}

}  // namespace cli
