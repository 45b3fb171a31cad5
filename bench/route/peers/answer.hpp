#pragma once
// What a peer says, and the peers there are. Each gets the model as prepared; all work on one thread.

#include <optional>

#include "holes.hpp"

namespace route_peers {

enum class Verdict { optimal, infeasible, unproven };

struct Answer {
  Verdict verdict = Verdict::unproven;
  std::optional<std::int64_t> objective;
};

enum class GecodeSearch { thickness_of_domain, failures, regret_with_restarts };

Answer solve_with_gecode(const Model& model, GecodeSearch search, double seconds);
Answer solve_with_cbc(const Model& model, double seconds);
Answer solve_with_z3(const Model& model, double seconds);

/// The whole-number program of the model in the format that MIP solvers read.
std::string linear_program_text(const Model& model);

}  // namespace route_peers
