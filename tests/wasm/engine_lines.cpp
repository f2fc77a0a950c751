// tests/wasm/engine_lines.cpp
// The native side of the parity test: reads one JSON question a line, writes one JSON answer a line.
#include <iostream>
#include <string>

#include "engine/page_engine.h"

int main() {
  std::ios::sync_with_stdio(false);
  redd::engine::PageEngine engine;
  for (std::string line; std::getline(std::cin, line);) std::cout << engine.answer(line) << '\n';
}
