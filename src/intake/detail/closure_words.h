#pragma once
// Whether the words of a calendar's event sound like a closed school. A proposal only: the keeper confirms each row.
// Assumed: the word lists, from ordinary usage in a dozen languages; no source.

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

#include "quantities/phrase.h"

namespace redd::intake::detail {

enum class Sounds { closed, early_closing, otherwise };

struct ClosureSound {
  Sounds sounds = Sounds::otherwise;
  Phrase reason{};  ///< why otherwise, one sentence
};

/// In  summary: UTF-8, any case.
ClosureSound sound_of(std::string_view summary);

/// A time of day in the words, "1:15 pm", "13:15", "12.30 Uhr"; hours from one to six without "am" are taken as afternoon.
std::optional<std::chrono::minutes> time_in(std::string_view summary);

}  // namespace redd::intake::detail
