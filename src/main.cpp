#include <csignal>
#include <iostream>

#include "cli/shell/dispatch.h"

int main(int count, char** words) {
  // At a file size limit the write then fails and is said, where the signal would end the program.
  (void)std::signal(SIGXFSZ, SIG_IGN);
  // A reader that is gone (| head) must not end it between recording and saying so.
  (void)std::signal(SIGPIPE, SIG_IGN);
  return cli::dispatch({words + 1, words + count}, {std::cout, std::cerr, std::cin});
}
