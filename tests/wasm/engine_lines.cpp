// tests/wasm/engine_lines.cpp
// The native side of the parity test: reads one JSON question a line, writes one JSON answer a line.
#include <iostream>
#include <string>

#include "engine/engine.h"

int main() {
  std::ios::sync_with_stdio(false);
  for (std::string line; std::getline(std::cin, line);) std::cout << redd::engine::answer(line) << '\n';
}
