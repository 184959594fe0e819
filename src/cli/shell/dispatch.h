#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace cli {

// The outside world, as main() finds it.
struct World {
  std::ostream& out;
  std::ostream& err;
  std::istream& in;
};

// Runs one command line (without the program's name) and returns its exit status. Everything the
// program prints and every error it can meet passes through here.
int dispatch(const std::vector<std::string>& typed, World world);

}  // namespace cli
