#pragma once

#include <memory>
#include <utility>

#include "kinds/study.h"

namespace cli {

// A batch's history with the study that its kind makes of it.
class Studied {
 public:
  Studied(model::History history, model::Rules rules)
      : kept_(std::make_shared<const Kept>(std::move(history), std::move(rules))) {}
  const kinds::Study* operator->() const { return kept_->study.get(); }
  const kinds::Study& operator*() const { return *kept_->study; }

 private:
  struct Kept {
    Kept(model::History h, model::Rules r)
        : history(std::move(h)), rules(std::move(r)), study(kinds::study(history, rules)) {}
    model::History history;
    model::Rules rules;
    std::unique_ptr<kinds::Study> study;
  };
  std::shared_ptr<const Kept> kept_;
};

}  // namespace cli
