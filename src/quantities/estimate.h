#pragma once
// A value with its doubt. Nothing that was not measured exactly travels without one.

namespace redd {

/// What an estimate rests on. Renderers name it; it is never dropped on the way.
enum class Support { measured, inferred, assumed };

/// A central 90 % interval and a middle value, of any ordered quantity: low <= mid <= high.
template <class T>
struct Estimate {
  T low;
  T mid;
  T high;
  Support support = Support::measured;
};

}  // namespace redd
