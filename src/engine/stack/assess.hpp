#pragma once
// What can be said of one form once the pieces in the slots are fixed.

#include "engine/stack/linear.hpp"

namespace cotter::engine::stack {

/// What the pieces of a set add to the undivided form.
Length added_by(const std::vector<Use>& uses, const LinearForm& form, const std::vector<Piece>& kit);

/// The form shifted by `added`, with every statement about it.
FormState assess(const LinearForm& form, Length added, const std::vector<Term>& terms);

/// Worst case and probability alone.
Outlook outlook(const LinearForm& form, Length added, const std::vector<Term>& terms);

/// Terms by what their measurement would decide, over the open ones of `states`, best first.
std::vector<Measurement> measurements(const std::vector<FormState>& states);

/// Undivided length to the form's length, rounded down or up to whole nanometres.
Length divided_down(Length undivided, std::int64_t divisor);
Length divided_up(Length undivided, std::int64_t divisor);

}  // namespace cotter::engine::stack
