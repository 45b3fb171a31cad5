#pragma once
// Plans of our own invention for the drawing's tests: their picture is made from a skeleton as a plan makes it.

#include <string>

#include "geometry/skeleton.hpp"
#include "model/plan.hpp"

namespace cotter::draw::test {

geometry::FrameNumbers demonstration_numbers();

/// Without findings; the numbers must suffice for the whole skeleton.
model::Plan plan_from(const geometry::FrameNumbers& numbers);

/// Frame, wheels and cockpit with fourteen dimensions, five openings, four runs and seven findings.
model::Plan demonstration_plan();

/// The same bicycle with fourteen openings, six runs, eight findings that are not ok, and long names.
model::Plan crowded_plan();

model::PlanPoint plan_point(const geometry::Point3& p);

/// A value in whole nanometres or millionths of a degree.
quantity::Value value_of(quantity::Dimension dimension, std::int64_t nominal, quantity::OriginKind kind);

}  // namespace cotter::draw::test
