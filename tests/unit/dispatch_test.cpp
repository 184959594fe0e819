#include "cli/shell/dispatch.h"

#include <doctest/doctest.h>

#include <new>
#include <sstream>
#include <stdexcept>

#include "site_book.h"

namespace dispatch_test {

namespace {

// A place to print to that fails in a way of its own.
template <class Failure>
class Failing : public std::streambuf {
 public:
  explicit Failing(Failure failure) : failure_(failure) {}

 private:
  int overflow(int) override { throw failure_; }
  Failure failure_;
};

struct Said {
  int status;
  std::string text;
};

template <class Failure>
Said said_of(Failure failure) {
  const SiteBook site;
  Failing<Failure> failing(failure);
  std::ostream out(&failing);
  out.exceptions(std::ios::badbit);
  std::ostringstream err;
  std::istringstream in;
  const int status = cli::dispatch({"--book", site.path.string(), "list"}, {out, err, in});
  return {status, err.str()};
}

}  // namespace

TEST_CASE("whatever goes wrong ends in one line and the status for it") {
  const Said memory = said_of(std::bad_alloc());
  CHECK(memory.status == 1);
  CHECK(memory.text ==
        "roundbook: there is not enough memory for this; it stopped in the middle.\n");
  const Said other = said_of(std::runtime_error("database is locked"));
  CHECK(other.status == 1);
  CHECK(other.text == "roundbook: it stopped in the middle: database is locked.\n");
}

}  // namespace dispatch_test
