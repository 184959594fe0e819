#pragma once

#include <string_view>

namespace book {

// A real number as the journal has it. SQLite's quote() wrote 15 digits where SQLite reads them
// back as the number they were (`read`), and 21 where not; 21 are enough, but SQLite 3.40 reads
// some of them a last bit off.
double exact_real(std::string_view digits, double read);

}  // namespace book
