#pragma once

#include "kinds/finding.h"
#include "kinds/kind.h"

// A kind as it was before its study: goes when the last of them has one.
namespace kinds {

struct OldKind {
  std::string_view name;        // "pile"
  std::string_view meaning;     // "a compost pile, windrow or turning drum"
  std::string_view one = {};    // a batch of it, in a sentence; empty: "a " and the name
  std::string_view begun = {};  // a code and settings as someone would start one, for the help
  std::span<const Quantity> quantities;
  std::span<const Word> words;
  std::span<const SettingSpec> settings;
  std::string_view positions;    // probe positions, separated by spaces; empty: none
  std::string_view temperature;  // the quantity a bare 148F is; empty: none
  std::string_view percentage;   // the quantity a bare 55% is; empty: none
  std::string_view product;      // the material `take` means when none is said; empty: must be said
  std::string_view rhythm;       // the quantity whose silence is `KIND.unread`; empty: any entry
  const model::ThresholdInfo* unread_after;  // days of silence; null: never

  // Whether what comes out of it must have gone in: then taking more than is there is refused
  // unless the person is sure. A bed or a flock makes mass; a pile or a drum does not.
  bool keeps_mass = false;
  bool learns = false;            // whether assess() wants History::finished
  bool wants_provenance = false;  // whether it reads Movement::manure and Movement::holds
  bool keeps_ground = false;      // whether it wants History::earlier_in
  bool wants_used = false;        // whether it reads History::used

  model::Assessment (*assess)(const model::History&, const model::Rules&);
  // Adds the forecasts and the measures, where they cost far more than all else that assess() says;
  // null: assess() has them.
  void (*look_further)(const model::History&, const model::Rules&, model::Assessment&) = nullptr;
  // Works out History::lesson, as of a day; null: assess() learns from each finished batch as it
  // goes.
  std::shared_ptr<const model::Lesson> (*learn)(
      const std::shared_ptr<const std::vector<model::History>>& finished, const model::Rules&,
      model::Day as_of) = nullptr;
  // Null: takes anything.
  std::optional<Objection> (*objects_to)(const model::Material&, const model::Batch&,
                                         const model::Rules&);
  // The product by what went in; null: always `product`.
  std::string_view (*product_now)(const model::History&) = nullptr;
  // Against taking that load out now; null: never.
  std::optional<Objection> (*objects_to_taking)(const model::Movement&, const model::History&,
                                                const model::Rules&) = nullptr;
  // Raw manure that went in with a load and may be in what is taken out now: why it still counts as
  // raw, or none where it no longer does. `history` reads the batch as of that moment, where the
  // answer needs it. Null: what goes in does not come out again.
  std::optional<std::string> (*still_raw)(const model::Movement& in, const LookBack& history,
                                          const model::Rules&) = nullptr;
  // What a load of it holds, where the kind knows better than the material's figures; null: never.
  std::optional<model::Load> (*holds)(const model::Movement& out, const LookBack& history,
                                      const model::Rules&) = nullptr;
  // What of the stuff in a load is expected to have left for the air by a day; null: nothing.
  ExpectedLoss (*loss)(model::Stuff, const model::Movement& in, model::Day until,
                       const model::Rules&) = nullptr;
  // Whether that has begun; null: with the load.
  bool (*loses_yet)(const model::History&) = nullptr;
  // Whether its figures for the season's account count up over the batch's life.
  bool counts_up = false;
  // What is said of a load at the moment when it is carried to a batch with on_arrival (a bed): by
  // the batch it leaves, and by the one that gets it; null: nothing.
  std::vector<std::string> (*at_use)(const model::Movement& out, const model::History&,
                                     const model::Rules&) = nullptr;
  std::vector<std::string> (*on_arrival)(const model::Movement& in, const model::History&,
                                         const model::Rules&) = nullptr;
  // The usual caution, where what an entry puts hands to can hurt someone; empty: none. `before` is
  // the batch without that entry (just started, where it starts). Null: never.
  std::string (*caution_at)(const Handled&, const model::History& before,
                            const model::Rules&) = nullptr;
  // What is wrong with a setting that takes any text; null: any text will do.
  std::optional<measure::Mistake> (*objects_to_setting)(std::string_view key,
                                                        std::string_view typed) = nullptr;
  // A reading typed in another dimension than its quantity's (a tank's level in gallons), as it is
  // in the quantity's base unit for this batch; the mistake says what is missing of it. Null: each
  // quantity has its one dimension.
  measure::Result<double> (*reading_from)(const Quantity&, measure::Value typed,
                                          const model::Batch&, const measure::Printer&) = nullptr;
  // What is impossible in a reading for this very batch (more than it holds), where the quantity
  // itself could be so; null: nothing.
  std::optional<std::string> (*objects_to_reading)(const Quantity&, double si, const model::Batch&,
                                                   const measure::Printer&) = nullptr;
  // What is hardly so of a reading beside the rest of the history as of it (more eggs in a day than
  // hens): asked back unless the person is sure; null: nothing.
  std::optional<std::string> (*doubts_reading)(const Quantity&, double si, const model::History&,
                                               const measure::Printer&) = nullptr;
  // What is hardly so of a deed at that moment beside the whole history (quenched before it was
  // lit): asked back unless the person is sure; null: nothing.
  std::optional<std::string> (*doubts_deed)(const Word&, model::Instant at,
                                            const model::History&) = nullptr;
  // What `show CODE --treatment` prints; null: the kind has no such record.
  model::Record (*record)(const model::History&, const model::Rules&) = nullptr;
  // What `show CODE --sizing` prints; null: there is no size to judge.
  model::Record (*sizing)(const model::History&, const model::Rules&) = nullptr;
  // Scores the kind's foresight of its temperature over a history; null: it foresees none.
  std::vector<ForesightScore> (*replay)(const model::History&, const model::Rules&) = nullptr;
  // Limits worth a line in the chart of its temperature; null: none.
  const model::ThresholdInfo* chart_limit = nullptr;
  // The limits that the season report draws beside the temperature; the first is the lowest.
  std::span<const model::ThresholdInfo* const> plot_limits = {};
  // The quantity that `show` draws; empty: its temperature, else its rhythm.
  std::string_view charted = {};
};

extern const OldKind kLarvaeOld;

class OldStudy : public Study {
 public:
  OldStudy(const OldKind& kind, const model::History& history, const model::Rules& rules)
      : Study(history, rules), kind_(kind) {}
  std::string stage() const override { return assessed().stage; }
  std::vector<model::Finding> findings() const override {
    return {assessed().findings.begin(), assessed().findings.end()};
  }
  model::Words words(const model::Finding&) const override { return {}; }
  std::string well() const override { return assessed().well; }
  std::vector<model::Progress> progress() const override { return assessed().progress; }
  std::vector<model::Forecast> forecasts() const override { return further().forecasts; }
  std::vector<model::Measure> figures() const override { return further().measures; }
  std::optional<model::Record> record(RecordOf of) const override {
    const auto make = of == RecordOf::kTreatment ? kind_.record : kind_.sizing;
    if (make == nullptr) return std::nullopt;
    return make(history_, rules_);
  }
  std::vector<ForesightScore> replay() const override {
    return kind_.replay == nullptr ? std::vector<ForesightScore>() : kind_.replay(history_, rules_);
  }
  std::string_view product() const override {
    return kind_.product_now == nullptr ? kind_.product : kind_.product_now(history_);
  }
  std::optional<Objection> against_taking(const model::Movement& load) const override {
    if (kind_.objects_to_taking == nullptr) return std::nullopt;
    return kind_.objects_to_taking(load, history_, rules_);
  }
  std::optional<model::Load> holds(const model::Movement& out) const override {
    if (kind_.holds == nullptr) return std::nullopt;
    return kind_.holds(
        out, [this] { return history_; }, rules_);
  }
  std::vector<std::string> at_use(const model::Movement& out) const override {
    return kind_.at_use == nullptr ? std::vector<std::string>()
                                   : kind_.at_use(out, history_, rules_);
  }
  std::vector<std::string> on_arrival(const model::Movement& in) const override {
    return kind_.on_arrival == nullptr ? std::vector<std::string>()
                                       : kind_.on_arrival(in, history_, rules_);
  }
  bool loses_yet() const override {
    return kind_.loses_yet == nullptr || kind_.loses_yet(history_);
  }
  std::optional<measure::Result<double>> reading_from(const Quantity& quantity,
                                                      measure::Value typed) const override {
    if (kind_.reading_from == nullptr) return std::nullopt;
    return kind_.reading_from(quantity, typed, history_.batch, print());
  }
  std::optional<std::string> doubts(const Quantity& quantity, double si) const override {
    std::optional<std::string> why;
    if (kind_.objects_to_reading != nullptr)
      why = kind_.objects_to_reading(quantity, si, history_.batch, print());
    if (!why && kind_.doubts_reading != nullptr)
      why = kind_.doubts_reading(quantity, si, history_, print());
    return why;
  }
  std::optional<std::string> doubts(const Word& word, model::Instant at) const override {
    if (kind_.doubts_deed == nullptr) return std::nullopt;
    return kind_.doubts_deed(word, at, history_);
  }
  std::string old_caution(const Handled& handled) const override {
    return kind_.caution_at == nullptr ? "" : kind_.caution_at(handled, history_, rules_);
  }
  std::vector<model::Told> old_told() const { return assessed().findings; }

 private:
  const model::Assessment& assessed() const {
    if (!assessed_) assessed_ = kind_.assess(history_, rules_);
    return *assessed_;
  }
  const model::Assessment& further() const {
    assessed();
    if (!looked_ && kind_.look_further != nullptr) kind_.look_further(history_, rules_, *assessed_);
    looked_ = true;
    return *assessed_;
  }
  const OldKind& kind_;
  mutable std::optional<model::Assessment> assessed_;
  mutable bool looked_ = false;
};

// A capture-less function per kind, since a Kind holds a plain one.
template <const OldKind& kOld>
Kind from_old(Roles roles) {
  Kind kind{
      .name = kOld.name,
      .meaning = kOld.meaning,
      .one = kOld.one,
      .begun = kOld.begun,
      .vocabulary = {kOld.quantities, kOld.words, kOld.settings, kOld.positions, kOld.temperature,
                     kOld.percentage, kOld.rhythm, kOld.unread_after},
      .drawing = {kOld.charted, kOld.chart_limit, kOld.plot_limits},
      .needs = {kOld.learns, kOld.wants_provenance, kOld.keeps_ground, kOld.wants_used},
      .carrying = {.product = kOld.product, .still_raw = kOld.still_raw},
      .roles = roles,
      .study = [](const model::History& history, const model::Rules& rules)
          -> std::unique_ptr<Study> { return std::make_unique<OldStudy>(kOld, history, rules); },
      .hazards = {.gas = HazardAnswer::none("an open bin gives off no more than a smell"),
                  .fire = HazardAnswer::none("nothing in it burns"),
                  .carbon_monoxide = HazardAnswer::none("nothing in it burns"),
                  .germs = HazardAnswer::rows(),
                  .pressure = HazardAnswer::none("it is open"),
                  .height = HazardAnswer::none("it is worked from the ground"),
                  .bites_and_dust = HazardAnswer::rows(),
                  .drinking = HazardAnswer::none("nobody drinks of it"),
                  .electric = HazardAnswer::none("it has no wiring")},
  };
  if (kOld.objects_to_setting != nullptr)
    kind.vocabulary.objects_to_setting = kOld.objects_to_setting;
  if (kOld.learn != nullptr) kind.needs.learn = kOld.learn;
  if (kOld.objects_to != nullptr) kind.carrying.objects_to = kOld.objects_to;
  if (kOld.loss != nullptr) kind.carrying.loss = kOld.loss;
  return kind;
}

}  // namespace kinds
