#pragma once

#include <string>
#include <vector>

#include "cli/desk/desk.h"
#include "render/json.h"
#include "season/trial.h"
#include "season/yardstick.h"

// What `compare` says: the numbers, what they show in plain words, and what they cannot.
namespace cli {

struct Compared {
  std::vector<season::TrialSide>
      sides;  // as they were named; the last is what the others are held to
  season::Yardstick yardstick;
  season::Scale scale;
  std::vector<std::string> left_out;
  bool pairs = false;
  bool by_lot = false;
  std::optional<season::Trial> trial;     // of two sides
  std::optional<science::Blocks> blocks;  // of more
};

std::string compared_text(const Compared& compared, std::size_t width);
render::Json compared_json(const Compared& compared);

struct Planned {
  double worth{}, spread{};  // shares of the usual
  std::string spread_from;   // "as told", or the batches
  bool pairs = false;
  season::Plan plan;
};
std::string planned_text(const Planned& planned, std::size_t width);
render::Json planned_json(const Planned& planned);

struct Drawn {
  std::vector<season::Lot> lots;
  bool blocks = false;
  std::uint64_t seed{};
};
std::string drawn_text(const Drawn& drawn, std::size_t width);
render::Json drawn_json(const Drawn& drawn);

}  // namespace cli
