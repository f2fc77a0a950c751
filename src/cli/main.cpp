// The program: hands its words to cli::run().
#include <unistd.h>

#include <exception>
#include <iostream>

#include "cli/command_line.h"

int main(int count, char** words) {
  const redd::cli::Console console{std::cin, std::cout, std::cerr,
                                   isatty(STDIN_FILENO) != 0 && isatty(STDOUT_FILENO) != 0};
  try {
    return redd::cli::run(console, {words + 1, words + count}, REDD_VERSION);
  } catch (const std::exception& error) {
    std::cerr << "redd: stopped by an internal error: " << error.what() << "\n";
  }
  return 1;
}
