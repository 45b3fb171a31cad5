#pragma once
// What a plan asks of the bench and what it says nothing about, one entry a line.

#include <string>
#include <vector>

#include "model/plan.hpp"

namespace cotter::words {

/// Values whose measurement may change something, best first.
std::vector<std::string> measure_next_lines(const model::Plan& plan);
/// The values of which no outcome changes anything; empty when there are none.
std::string other_measurements(const model::Plan& plan);
/// How many values are listed, and how long it takes to measure all of them.
std::string measure_next_total(const model::Plan& plan);

/// Places that nothing judges, each with the reason.
std::vector<std::string> unchecked_lines(const model::Plan& plan);

}  // namespace cotter::words
