#include "problem/engines.hpp"

#include <algorithm>

#include "problem/bridge_problem.hpp"
#include "problem/fit_problem.hpp"
#include "problem/route_problem.hpp"
#include "problem/sequence_problem.hpp"
#include "problem/stack_problem.hpp"

namespace cotter::problem {

const std::vector<EngineDocument>& engines() {
  static const std::vector<EngineDocument> k_engines = {
      {"stack", stack_schema, solve_stack},    {"fit", fit_schema, solve_fit},
      {"route", route_schema, solve_route},    {"sequence", sequence_schema, solve_sequence},
      {"bridge", bridge_schema, solve_bridge},
  };
  return k_engines;
}

const EngineDocument* find_engine(std::string_view name) {
  const auto found =
      std::find_if(engines().begin(), engines().end(), [&](const EngineDocument& one) { return one.name == name; });
  return found == engines().end() ? nullptr : &*found;
}

}  // namespace cotter::problem
