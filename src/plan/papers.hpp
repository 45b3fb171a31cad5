#pragma once
// Papers of makers in the job: which limits they let pass, and why the others change nothing.

#include <vector>

#include "model/finding.hpp"
#include "plan/assembly.hpp"

namespace cotter::plan {

/// Judges each finding that a paper of the job names against the paper's limit in the place of the rule's own.
///
/// **Method** A number that its own limit refuses, or leaves open, and that lies inside the paper's limit for certain
/// says `accept`, signed for by the person who read the paper: never `ok`. The rule must not say `nobody`, the paper
/// must be for a part of that finding which is not a used one, must name its writer, document, page, date and reader,
/// and the number must rest on vouched values only. A number inside its own limit that a stricter paper refuses says
/// `stop`, or `measure` when that is open; this holds for every rule and for used parts too. Any other paper changes
/// nothing, and the finding says why. A paper that names no finding of this plan becomes one, with `measure`.
/// **Requires** findings before any decision was applied.
void apply_papers(const Assembly& assembly, std::vector<model::Finding>& findings);

}  // namespace cotter::plan
