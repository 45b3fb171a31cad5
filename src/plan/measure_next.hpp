#pragma once
// What to measure next: of all values that open findings ask for, the one whose measurement is worth most. Reads
// findings only; which values of a measurement mean what was worked out by the adapters. Definition and a worked
// example: docs/measure.md.

#include <vector>

#include "model/finding.hpp"
#include "model/operation.hpp"
#include "model/plan.hpp"

namespace cotter::plan {

/// Takes the measurements off each open finding between two parts that are not made for each other, and says which stop
/// it waits for: one of the two parts goes, whatever is measured on it.
void mark_moot_measurements(std::vector<model::Finding>& findings);

/// Every value that an open finding asks for, best first.
///
/// **Method** rank = chance x cost / minutes. Chance: part of the value's range (spread evenly; an unknown one over all
/// that its kind permits) in which, every other value at its nominal, a verdict is another than at the value's own
/// nominal, or another set of pieces would be chosen. Cost: the mean, over that part, of the largest `late` among the
/// findings that change. Minutes: of the kind's guide.
/// **Accuracy** exact to rounding of doubles: all limits of one value lie on one axis. Choices of pieces: as exact as
/// `Measurement::other_choice`.
std::vector<model::NextMeasurement> measure_next(const std::vector<model::Finding>& findings, const model::Shop& shop);

}  // namespace cotter::plan
