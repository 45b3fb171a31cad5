#pragma once
// What the stacks say of lengths that an adapter would add: the bridge proposes, the stack accepts or refuses.

#include <string>
#include <vector>

#include "plan/assembly.hpp"

namespace cotter::plan {

/// A length that comes on top of a value of the job; `ref` in the template's names.
struct AddedLength {
  model::ValueRef ref;
  quantity::Value value;
};

struct AddedVerdict {
  quantity::Certainty certainty = quantity::Certainty::holds;
  std::string form;  ///< label of the length that decides; empty when it holds
};

/// **Method** every stack that reads one of the values is solved with and without what is added. Fails: a length that
/// did not fail before does now, whatever spacers the kit has. Open: one that held is open, or one cannot be computed.
AddedVerdict judge_added_lengths(const Assembly& assembly, const std::vector<AddedLength>& added);

}  // namespace cotter::plan
