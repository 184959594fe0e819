#pragma once

#include "cli/shell/command.h"

// The functions of the command table, each in the file of its name.
namespace cli {

Outcome run_new(Context& context, const Arguments& arguments);
Outcome run_start(Context& context, const Arguments& arguments);
// Prints the settings of the kind that the words name, each with its unit and what holds where it
// is not told; returns how one of the kind is begun.
std::string help_start(std::ostream& out, const Arguments& arguments);
Outcome run_log(Context& context, const Arguments& arguments);
// Prints the readings, deeds, judgements and settings of the kind that the words name.
std::string help_log(std::ostream& out, const Arguments& arguments);
Outcome run_add(Context& context, const Arguments& arguments);
Outcome run_take(Context& context, const Arguments& arguments);
Outcome run_end(Context& context, const Arguments& arguments);
Outcome run_today(Context& context, const Arguments& arguments);
Outcome run_why(Context& context, const Arguments& arguments);
Outcome run_later(Context& context, const Arguments& arguments);
Outcome run_ahead(Context& context, const Arguments& arguments);
Outcome run_sheet(Context& context, const Arguments& arguments);
Outcome run_labels(Context& context, const Arguments& arguments);
Outcome run_round(Context& context, const Arguments& arguments);
Outcome run_list(Context& context, const Arguments& arguments);
Outcome run_show(Context& context, const Arguments& arguments);
Outcome run_recipe(Context& context, const Arguments& arguments);
Outcome run_trace(Context& context, const Arguments& arguments);
Outcome run_compare(Context& context, const Arguments& arguments);
Outcome run_import(Context& context, const Arguments& arguments);
Outcome run_season(Context& context, const Arguments& arguments);
Outcome run_material(Context& context, const Arguments& arguments);
Outcome run_container(Context& context, const Arguments& arguments);
Outcome run_tool(Context& context, const Arguments& arguments);
Outcome run_place(Context& context, const Arguments& arguments);
Outcome run_rule(Context& context, const Arguments& arguments);
Outcome run_undo(Context& context, const Arguments& arguments);
Outcome run_amend(Context& context, const Arguments& arguments);
Outcome run_find(Context& context, const Arguments& arguments);
Outcome run_history(Context& context, const Arguments& arguments);
Outcome run_check(Context& context, const Arguments& arguments);
Outcome run_backup(Context& context, const Arguments& arguments);
Outcome run_restore(Context& context, const Arguments& arguments);
Outcome run_export(Context& context, const Arguments& arguments);
Outcome run_complete(Context& context, const Arguments& arguments);
Outcome run_merge(Context& context, const Arguments& arguments);

}  // namespace cli
