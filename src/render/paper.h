#pragma once

#include <string>
#include <vector>

// Pages to print for the shed: today's jobs with blanks to fill, and labels to stick on. Each is
// one file of HTML without a script, and asks for nothing from anywhere.
namespace render {

struct PaperJob {
  std::string batch;  // empty: of several
  std::string says;
  std::string minds;  // what can hurt, in short; empty: nothing
  bool now = false;   // it harms if it waits
};

struct PaperBlank {
  std::string batch, place;
  std::string last;    // "core 158 °F today 08:00"; empty: nothing yet
  std::string wanted;  // what to write down: "temperature, °F"; empty: what is seen
  bool due = false;    // it is to be looked at today
};

struct PaperSheet {
  std::string site, day;
  std::vector<PaperJob> jobs;
  std::vector<PaperBlank> blanks;
  std::vector<std::string> held;  // what must not be done yet
  bool large = false;             // in large print
};

// One side of letter or A4 for twenty batches and a dozen jobs, unless it is in large print.
std::string sheet_page(const PaperSheet& sheet);

struct PaperLabel {
  std::string code, kind;
  std::string begun;               // "since Mon 5 Oct 2026"
  std::vector<std::string> holds;  // what went in, the most first
  std::vector<std::string> minds;
  std::string wait;  // "not before Sun 31 Jan 2027: garlic"; empty: nothing waits
};

// Eight labels a page, to be cut along the lines; one with more to say is higher: no caution is
// cut.
std::string label_page(const std::string& site, const std::vector<PaperLabel>& labels);

}  // namespace render
