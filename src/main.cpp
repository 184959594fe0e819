#include <iostream>

#include "cli/dispatch.h"

int main(int count, char** words) {
  return cli::dispatch({words + 1, words + count}, {std::cout, std::cerr, std::cin});
}
