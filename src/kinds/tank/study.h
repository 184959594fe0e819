#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "kinds/study.h"
#include "kinds/tank/water.h"

namespace kinds::tank {

// A rain tank and the roof that fills it.
class Study final : public kinds::Study {
 public:
  using kinds::Study::Study;

  // Its pieces, each worked out when it is first asked for.
  std::optional<measure::Litres> capacity() const { return capacity_of(history_.batch); }
  const std::optional<Roof>& roof() const {
    return roof_.made([this] { return roof_of(history_, rules_); });
  }
  const std::vector<RainDay>& rain() const {
    return rain_.made([this] { return rain_days(*this); });
  }
  const std::vector<Level>& levels() const {
    return levels_.made([this] { return levels_of(history_); });
  }
  const std::optional<Holding>& holding() const {
    return holding_.made([this] { return holding_of(*this); });
  }
  const std::optional<Draw>& draw() const {
    return draw_.made([this] { return draw_of(history_, rules_); });
  }
  // Whether so much is called full; no: what it can hold was not told.
  bool is_full(measure::Litres held) const;

  std::string stage() const override;
  std::vector<model::Finding> findings() const override;
  std::vector<model::Finding> by_calendar() const override;
  model::Words words(const model::Finding& finding) const override;
  std::string well() const override;
  std::vector<model::Progress> progress() const override;
  std::vector<model::Forecast> forecasts() const override;
  std::vector<ForesightScore> replay() const override;
  std::vector<model::Measure> figures() const override;
  std::optional<model::Record> record(RecordOf of) const override;
  std::optional<measure::Result<double>> reading_from(const Quantity& quantity,
                                                      measure::Value typed) const override;
  std::optional<std::string> doubts(const Quantity& quantity, double si) const override;
  bool is_meant(model::Forbids what, const model::Movement& load) const override;
  std::optional<Objection> against_taking(const model::Movement& load) const override;
  std::vector<std::string_view> circumstances(const Handled& handled) const override;

 private:
  template <class T>
  class Once {
   public:
    template <class Make>
    const T& made(const Make& make) {
      if (!value_) value_.emplace(make());
      return *value_;
    }

   private:
    std::optional<T> value_;
  };
  mutable Once<std::optional<Roof>> roof_;
  mutable Once<std::vector<RainDay>> rain_;
  mutable Once<std::vector<Level>> levels_;
  mutable Once<std::optional<Holding>> holding_;
  mutable Once<std::optional<Draw>> draw_;
};

}  // namespace kinds::tank
