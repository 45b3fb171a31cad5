#pragma once
// Bicycle templates from a checked `bicycle` document.

#include <optional>
#include <string>
#include <vector>

#include "document/read_section.hpp"
#include "document/read_spot.hpp"
#include "model/bicycle.hpp"

namespace cotter::document {

/// A template whose joints, stacks, seats and passages name only places that it has.
///
/// A template takes from its sections only what its own places allow: a joint needs both its places, a form of a stack
/// all that it names.
///
/// **Inputs** `operations` are the ids that `decide_before` and a `rework` may name.
/// **Fails with** `unknown_name`, `bad_reference` for a name of the wrong shape, `duplicate_id`, and what
/// read_rules.hpp lists.
model::Bicycle read_bicycle(const Spot& spot, const std::vector<std::string>& operations, const Sections& sections,
                            Diagnostics& diagnostics);

/// `place.name`, the place being one of `places`. **Fails with** `bad_reference`, `unknown_name`.
std::optional<model::InterfaceRef> read_pair(const Spot& spot, const std::vector<std::string>& places,
                                             std::string_view shape, Diagnostics& diagnostics);
/// `place.interface.dimension`, the place being one of `places`. **Fails with** `bad_reference`, `unknown_name`.
std::optional<model::ValueRef> read_value_ref(const Spot& spot, const std::vector<std::string>& places,
                                              Diagnostics& diagnostics);
/// The place whose part is spoilt when something is found out too late. **Fails with** `unknown_name`.
std::string read_spoilt(const Spot& spot, const std::vector<std::string>& places, Diagnostics& diagnostics);
/// Joint between interfaces of two places. **Fails with** `bad_reference`, `unknown_name`.
model::JointForm read_joint(const Spot& spot, const std::vector<std::string>& places, Diagnostics& diagnostics);

/// A dotted name in its parts; empty unless there are `count` parts and none is empty.
std::vector<std::string> dotted(const std::string& text, std::size_t count);

}  // namespace cotter::document
