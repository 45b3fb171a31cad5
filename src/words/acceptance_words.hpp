#pragma once
// Why a finding cannot be accepted, in words.

#include <string>

#include "model/finding.hpp"

namespace cotter::words {

/// One or two sentences with the finding's name and verdict. Requires an answer that refuses.
std::string refused_acceptance(const model::Finding& finding, model::Acceptance acceptance);

}  // namespace cotter::words
