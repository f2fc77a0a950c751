#pragma once
// One piece of work that several rules ask for is asked for once, with all their reasons.

#include "advice/situation.h"

namespace redd::advice {

/// Joins what is one deed: all water changes into one (the largest does the work of all), tests of one day into one sitting, a doubted reading
/// into the contradiction that doubts it too.
///
/// In      actions: ranked. Keys are different from each other.
/// Out     ranked as before; a joined action stands where its best part stood, with its keys joined by "+", the tone, time and aim of
///         the most pressing, and the reasons, cautions and sources of all.
void merge(const Situation& s, std::vector<Action>& actions);

/// Takes "nothing to do" out where there is something to do, or says less where something put aside still stands.
void drop_false_calm(const Situation& s, std::vector<Action>& actions, const std::vector<Action>& put_aside);

/// What still holds although it was answered: to be acted on, or skipped or put off while animals depend on it.
bool still_stands(const Action& put_aside);

}  // namespace redd::advice
