#pragma once
// How long one pair of hands takes for each kind of step, where the card does not say. All are assumptions a class can replace by its own.

#include <chrono>

namespace redd::sitting {

using std::chrono::seconds;

/// Assumed: an unhurried beginner at a table with everything laid out; no source. A step's own "seconds" on the card always goes first.
struct HandTimes {
  seconds fill{30};         ///< rinse the vial and fill it to the line
  seconds bottle{5};        ///< open and close a bottle of drops
  seconds drop{2};          ///< one drop
  seconds titration{60};    ///< drops counted until the colour turns
  seconds spoon{15};        ///< one level spoon of powder
  seconds mix{10};          ///< close, turn over or swirl
  seconds read{15};         ///< compare with the card and say the value
  seconds begin{5};         ///< start a test whose card begins with a wait (put the meter in)
  seconds whole_test{180};  ///< a test without any step on its card; the hands are taken to be busy with it throughout
};

}  // namespace redd::sitting
