#include "cli/desk/morning.h"

#include <algorithm>

#include "kinds/rhythm.h"

namespace cli {
namespace {

// What the batch wanted a day ago, where it wants hands now: only then is it told what is new.
std::vector<model::Told> a_day_ago(const model::Batch& batch, const std::vector<model::Told>& now,
                                   const Desk& desk) {
  const measure::Instant then = desk.now() - std::chrono::hours{24};
  if (batch.started > then || std::none_of(now.begin(), now.end(), [](const auto& one) {
        return season::wants_hands(one);
      }))
    return {};
  return desk.study(batch, then)->told();
}

}  // namespace

season::Morning look_round(const Desk& desk) {
  std::vector<season::LookedAt> batches;
  for (const model::Batch& batch : desk.open_batches()) {
    const Studied study = desk.study(batch);
    season::LookedAt one{batch.code, study->told(), {}, {}, kinds::was_read(*study)};
    if (one.now.empty()) {
      one.well = study->well();
    } else {
      one.yesterday = a_day_ago(batch, one.now, desk);
    }
    batches.push_back(std::move(one));
  }
  return season::morning_of(batches, put_off_now(desk), desk.today());
}

std::vector<season::PutOff> put_off_now(const Desk& desk) {
  std::vector<season::PutOff> put_off;
  for (const book::PutOff& one : book::put_offs(desk.logbook(), desk.now())) {
    put_off.push_back({one.batch, one.rule, one.until});
  }
  return put_off;
}

std::string line_of(const model::Told& finding) {
  return finding.words.line.empty() ? finding.words.says : finding.words.line;
}

std::string tag_of(const model::Told& finding) {
  if (!finding.words.tag.empty()) return finding.words.tag;
  std::string tail = finding.rule.substr(finding.rule.find('.') + 1);
  std::replace(tail.begin(), tail.end(), '.', ' ');
  return tail;
}

}  // namespace cli
