#pragma once

#include <array>

#include "cli/desk/desk.h"
#include "cli/shell/command.h"

namespace cli {

// A record of a batch that an option of `show` asks for.
struct RecordSort {
  std::string_view option;   // "treatment"; also in the names of its files
  std::string_view lacking;  // "treatment to show": of a kind that has none
  kinds::RecordOf of;
};
inline constexpr std::array kRecordSorts{
    RecordSort{"treatment", "treatment to show", kinds::RecordOf::kTreatment},
    RecordSort{"sizing", "size to judge", kinds::RecordOf::kSizing},
};

// Prints the record that the kind keeps for someone outside, as text or JSON; with --csv DIR it
// writes its tables there instead and names the files.
Outcome show_record(Context& context, const Arguments& arguments, const Desk& desk,
                    const model::History& history, const RecordSort& sort);

}  // namespace cli
