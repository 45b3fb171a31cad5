#pragma once
// A stack in which some length can be met by no set of pieces still wants pieces for its other lengths.

#include <vector>

#include "engine/stack/solve.hpp"

namespace cotter::plan {

struct RelaxedStack {
  engine::stack::Result result;  ///< of the problem without the windows of the forms left out
  std::vector<bool> left_out;    ///< by form: no set of pieces puts it into its window, whatever the others ask
};

/// The result for the forms that can hold; `first`, with nothing left out, when some set will do already or when no
/// form is to blame by itself.
/// **Method** Each form that fails with empty slots is solved alone; those without any set are left out together.
RelaxedStack without_hopeless_forms(const engine::stack::Problem& problem, engine::stack::Result first);

}  // namespace cotter::plan
