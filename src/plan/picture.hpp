#pragma once
// What a drawing of the bicycle needs, so that no drawing computes anything.

#include "geometry/skeleton.hpp"
#include "model/plan.hpp"
#include "plan/assembly.hpp"

namespace cotter::plan {

/// Outlines, dimension lines with the values they were drawn from, and the point each place's balloon leads to.
/// What the job's numbers do not give is left out.
model::Picture picture_of(const Assembly& assembly, const geometry::Skeleton& skeleton);

}  // namespace cotter::plan
