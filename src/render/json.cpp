#include "render/json.h"

namespace render {
namespace {

template <class T>
Json text_or_null(const T& text) {
  return text.empty() ? Json(nullptr) : Json(std::string(text));
}

}  // namespace

Json json_of(const model::Measured& measured, const measure::Printer& print) {
  return {{"quantity", text_or_null(measured.quantity)},
          {"si", measured.value.si},
          {"unit", model::unit_of(measured)},
          {"shown", model::shown(measured, print)}};
}

Json json_of(std::optional<measure::Day> day) {
  return day ? Json(measure::iso_date(*day)) : Json(nullptr);
}

Json json_of(const model::Told& finding, const measure::Printer& print) {
  return {{"batch", finding.batch},
          {"kind", finding.kind},
          {"rule", finding.rule},
          {"line", text_or_null(finding.words.line)},
          {"urgency", std::string(model::word(finding.urgency))},
          {"says", finding.words.says},
          {"why", text_or_null(finding.words.why)},
          {"do", text_or_null(finding.words.action)},
          {"caution", text_or_null(model::full_text(finding))},
          {"caution_short", text_or_null(model::brief_text(finding.cautions))},
          {"since", json_of(finding.since)},
          {"due", json_of(finding.due)},
          {"value", finding.value ? json_of(*finding.value, print) : Json(nullptr)},
          {"limit", finding.limit ? json_of(*finding.limit, print) : Json(nullptr)},
          {"threshold", text_or_null(finding.threshold)},
          {"source", text_or_null(finding.source)}};
}

Json json_of(const model::Forecast& forecast) {
  Json json{{"what", forecast.what},
            {"earliest", json_of(forecast.earliest)},
            {"likely", json_of(forecast.likely)},
            {"latest", json_of(forecast.latest)},
            {"says", forecast.says}};
  if (forecast.steps.empty()) return json;
  json["days"] = Json::array();
  for (const model::Forecast::Step& one : forecast.steps) {
    json["days"].push_back({{"day", json_of(std::optional(one.day))},
                            {"likely_si", one.likely},
                            {"low_si", one.low},
                            {"high_si", one.high}});
  }
  return json;
}

Json json_of(const model::Progress& progress) {
  return {{"goal", progress.goal},
          {"says", progress.says},
          {"share", progress.share ? Json(*progress.share) : Json(nullptr)}};
}

Json json_of(const model::Measure& measure, const measure::Printer& print) {
  Json json{{"key", measure.key}, {"name", measure.name}};
  json.update(json_of(measure.value, print));
  json["shown"] = model::shown(measure, print);
  if (measure.range)
    json.update({{"low_si", measure.range->low}, {"high_si", measure.range->high}});
  json["basis"] = text_or_null(measure.basis);
  return json;
}

Json json_of(const model::Movement& movement, const measure::Printer& print,
             const measure::Zone& zone) {
  const auto mass = movement.mass();
  return {
      {"at", zone.iso(movement.at)},
      {"day", measure::iso_date(movement.day)},
      {"material", movement.material.name},
      {"from", text_or_null(movement.from)},
      {"to", text_or_null(movement.to)},
      {"amount",
       json_of({std::string(measure::key(movement.amount.dimension)), movement.amount, ""}, print)},
      {"typed", movement.typed},
      {"mass_kg", mass ? Json(mass->value) : Json(nullptr)},
      {"weighed", movement.weighed()},
      {"for", text_or_null(movement.purpose)},
      {"paid",
       movement.paid_cents ? Json(static_cast<double>(*movement.paid_cents) / 100) : Json(nullptr)},
      {"sold",
       movement.sold_cents ? Json(static_cast<double>(*movement.sold_cents) / 100) : Json(nullptr)},
      {"supplier", text_or_null(movement.supplier)},
      {"lot", text_or_null(movement.lot)},
      {"buyer", text_or_null(movement.buyer)}};
}

Json json_of(const model::Batch& batch, const std::string& label, const measure::Zone& zone) {
  return {{"batch", label},
          {"kind", batch.kind},
          {"place", text_or_null(batch.place)},
          {"started", zone.iso(batch.started)},
          {"ended", batch.ended ? Json(zone.iso(*batch.ended)) : Json(nullptr)},
          {"because", text_or_null(batch.because)}};
}

}  // namespace render
