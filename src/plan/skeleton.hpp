#pragma once
// The skeleton of this bicycle from the geometry numbers of the parts in its places.

#include "geometry/skeleton.hpp"
#include "model/plan.hpp"
#include "plan/assembly.hpp"

namespace cotter::plan {

/// Numbers that no part states leave their points and tubes out; unknown ones are taken at the middle of their range,
/// for drawing and ways only (a way is good to 20 mm).
geometry::Skeleton skeleton_of(const Assembly& assembly);

/// A skeleton point as the plan carries it, in whole micrometres.
model::PlanPoint plan_point(const geometry::Point3& point);

}  // namespace cotter::plan
