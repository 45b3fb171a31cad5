#pragma once
// What a change did, in sentences.

#include <string>
#include <vector>

#include "model/difference.hpp"
#include "words/plan_words.hpp"

namespace cotter::words {

/// One sentence for each thing that changed, worst first. Findings that are new or gone and ok are counted, not named.
std::vector<std::string> difference_sentences(const model::PlanDifference& difference,
                                              const quantity::NumberStyle& style = {});

/// The same under heads, for a terminal.
std::string difference_text(const model::PlanDifference& difference, const Layout& layout = {});

}  // namespace cotter::words
