#pragma once
// What a finding on a press fit says beside its verdict. Inside of this box.

#include <string>
#include <vector>

#include "model/finding.hpp"
#include "quantity/text.hpp"

namespace cotter::words {

/// The force it takes, the maker's limit, the caution for composite; nothing for a finding without a press fit.
std::vector<std::string> press_sentences(const model::Finding& finding, const quantity::NumberStyle& style);

/// Lines of the working: each number with its formula, or what is missing for them.
std::vector<std::string> press_lines(const model::Finding& finding, const quantity::NumberStyle& style);

}  // namespace cotter::words
