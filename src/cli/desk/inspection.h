#pragma once

#include "cli/desk/desk.h"
#include "cli/shell/command.h"
#include "season/inspection.h"

// What an inspector is handed: the record of one batch, or of a season.
namespace cli {

season::Document record_of_batch(const Desk& desk, const model::History& history);
// All batches that were alive in the span, as of its end or of now.
season::Document record_of_season(const Desk& desk, const season::Span& span);

// Writes it where --html and --csv say, and names the files.
void write_document(Context& context, const Arguments& arguments, const season::Document& document,
                    std::string_view page_option);

}  // namespace cli
