#include <iostream>

#include "cli/program.h"

int main(int argc, char** argv) {
  return trowelbell::run_program({argv + 1, argv + argc}, {std::cin, std::cout, std::cerr});
}
