#pragma once
// English wants another sentence for one thing than for several; both are patterns of their own, so that each is translated whole.

namespace redd {

inline const char* one_or_several(long long count, const char* one, const char* several) { return count == 1 ? one : several; }

}  // namespace redd
