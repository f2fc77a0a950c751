#pragma once
// System calls that fail on command, in this whole test program: SQLite's and our own alike, because a program's own symbols go before those of the C library.
// Start at FailingCalls.

namespace redd::test {

enum class Fault { disk_full, short_write, failed_sync, read_only };

/// While one exists, the n-th call (from 1) that such a fault can strike fails, and every one after it.
class FailingCalls {
 public:
  FailingCalls(Fault fault, int nth);
  ~FailingCalls();
  FailingCalls(const FailingCalls&) = delete;
  FailingCalls& operator=(const FailingCalls&) = delete;

  /// Syncs that are not told to fail do nothing from now on, as these tests survey calls, not disks.
  static void skip_syncs(bool on);
  /// Whether any call failed so far.
  static bool struck();
};

}  // namespace redd::test
