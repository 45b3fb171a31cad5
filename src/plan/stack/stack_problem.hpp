#pragma once
// One stack of the template as a problem of the stack engine, with the way back to the values it was made from.

#include <map>
#include <string>
#include <vector>

#include "engine/stack/solve.hpp"
#include "model/bicycle.hpp"
#include "model/finding.hpp"
#include "plan/assembly.hpp"

namespace cotter::plan {

/// A form that cannot be put to the engine, and why.
struct MissingForm {
  const model::StackForm* form = nullptr;
  std::string place_label;      ///< place that is open, or whose part lacks the dimension
  std::string dimension_label;  ///< empty when the place is open
  std::vector<model::InterfaceRef> about;
  std::optional<FoundValue> unstated;  ///< what to measure, when the part could state it
};

struct StackProblem {
  engine::stack::Problem problem;
  std::vector<const model::StackForm*> forms;        ///< in the order of problem.forms
  std::vector<model::NamedValue> values;             ///< in the order of problem.terms
  std::vector<std::optional<FoundValue>> found;      ///< likewise; empty for fixed terms
  std::vector<std::optional<quantity::Range>> must;  ///< in the order of problem.forms
  std::vector<std::vector<FoundValue>> limits;       ///< likewise: what the ends of its window were taken from
  std::vector<MissingForm> missing;
};

StackProblem stack_problem(const Assembly& assembly, const model::StackDefinition& definition);

}  // namespace cotter::plan
