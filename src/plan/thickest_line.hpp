#pragma once
// What a part cannot know of itself: how thick the lines of this job are that may lie in it.

#include <functional>
#include <string>

#include "model/catalog.hpp"
#include "model/job.hpp"

namespace cotter::plan {

using FindPart = std::function<const model::Part*(const std::string& id)>;

/// Fills every dimension of the part that its kind calls `thickest_line`, in base units of length.
/// **Method** Of all lines of the job, wherever they run, the one whose diameter may be largest: routing comes later,
/// and too much room is no fault. A value that somebody measured stays; where a line has no diameter, none is filled
/// in. A used line's diameter is assumed, whatever its paper says.
void fill_thickest_line(const model::Job& job, const model::Catalog& catalog, const FindPart& find_part,
                        model::Part& part);

}  // namespace cotter::plan
