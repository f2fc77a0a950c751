#include "numerics/workers.h"

#include <gtest/gtest.h>

#include <vector>

namespace redd::numerics {
namespace {

TEST(SerialWorkers, DoEachItemOnceInOrder) {
  std::vector<std::size_t> seen;
  SerialWorkers workers;
  workers.for_each(4, [&](std::size_t i) { seen.push_back(i); });
  EXPECT_EQ(seen, (std::vector<std::size_t>{0, 1, 2, 3}));
}

}  // namespace
}  // namespace redd::numerics
