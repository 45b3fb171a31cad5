#pragma once
// Routes all lines of a frame at least cost, or says why there is no way. Read problem.hpp and result.hpp with it.

#include <string>
#include <vector>

#include "engine/route/problem.hpp"
#include "engine/route/result.hpp"

namespace cotter::engine::route {

/// Best plan of all lines, proven.
///
/// **Method** every simple way of every line inside its length window is listed and dominated ways are dropped; a
/// depth-first search over seats and ways follows, with the sets of lines that an aperture can take as constraints and
/// two lower bounds: the cheapest ways that are left, and the same with prices on the room in the apertures.
/// One order of pulling exists or not: whichever line can go in last may as well go in last, since fewer bodies never
/// hinder the others.
/// **Accuracy** costs and verdicts are exact for the numbers given; lengths of ways are good to about 20 mm.
/// A device that is put in through an aperture takes part in that: after the lines captive to it, before those that
/// would leave no room for it.
/// **Not for** a long connector in a bend, and chafing.
/// **Fails with** status `bad` and the faults when the problem contradicts itself; it never throws.
Result solve(const Problem& problem, const Options& options = {});

/// What is wrong with the problem; empty when nothing is.
std::vector<Fault> faults_in(const Problem& problem);

/// Checks a plan from nothing but the problem and the rules: ways, lengths, seats, apertures, the order of pulling, the
/// precedences and the cost. Returns one code for each violation, such as `length: line 3`; empty = the plan holds.
/// Requires a result with a plan.
std::vector<std::string> violations(const Problem& problem, const Result& result);

}  // namespace cotter::engine::route
