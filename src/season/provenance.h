#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "kinds/kind.h"
#include "model/history.h"
#include "model/rules.h"

// What a load brings with it from the batches it came through: raw manure that still counts as
// raw, and what the batch it left knows of its contents.
namespace season {

// A batch as the walk over the movements meets it.
struct SourceBatch {
  const kinds::Kind* kind{};
  std::function<model::History(model::Instant)> history;   // as of a moment
  std::function<std::vector<model::Movement>()> loads_in;  // all that is known, oldest first
  model::Rules rules;
  model::Instant now{};
};

struct Provenance {
  // Of each raw material the shortest way by which it is in there and still raw.
  std::vector<model::ManureTrail> manure;
  std::optional<model::Load> holds;
  std::optional<model::TreatedDays> treated;

  void fill(model::Movement& load) const;
};

// Works out what loads bring along: of each load once, and only of those that stand behind a load
// that is asked for. A load knows what had gone into its batch before it left, so that the loads
// are a graph in time without circles, whatever goes round on the site.
class Provenances {
 public:
  // The batch of that label; none: there is no such batch, and what it gives is taken as from
  // outside.
  using Find = std::function<std::optional<SourceBatch>(const std::string& label)>;
  explicit Provenances(Find find) : find_(std::move(find)) {}

  // Fills in what each of the loads brings along. One that is not recorded yet has the id 0: it
  // comes after all that was recorded up to its moment.
  void bring(std::vector<model::Movement>& loads);
  void bring(model::Movement& load);

 private:
  using When = std::pair<model::Instant, std::int64_t>;  // the order of loads
  struct Node {
    std::optional<SourceBatch> source;  // none: what it gives is judged by itself
    std::optional<std::vector<model::Movement>> in;
    std::optional<model::History> whole;  // as of now
  };
  // Raw manure in a batch: a load with it, and how it came to be in there.
  struct RawIn {
    const model::Movement* load;
    model::ManureTrail trail;
  };
  struct Contents {
    std::size_t loads = 0;  // so many of those that came in are in it
    // By material, in the order of their coming. Each holds a load by a longer way than the one
    // before it only where that came later, and so may be raw when the former is no more.
    std::vector<std::vector<RawIn>> raw;
  };

  static When when_of(const model::Movement& load);
  Node& node(const std::string& label);
  const std::vector<model::Movement>& loads_into(const std::string& label);
  const model::History& whole(const std::string& label);
  bool has_something_behind(const model::Movement& load);
  void work_out(std::map<When, const model::Movement*> wanted);
  Provenance one(const model::Movement& load, Contents& from);
  void fill(const std::string& label, When until, Contents& into);

  Find find_;
  std::map<std::string, Node> nodes_;
  std::map<std::int64_t, Provenance> found_;
  Provenance unrecorded_;  // of the last one asked for
};

// Raw manure in a load from outside, or of what a batch makes itself (a flock); none where it is
// known to be treated, or vegetation.
std::optional<model::ManureTrail> raw_at_origin(const model::Material& material);

}  // namespace season
