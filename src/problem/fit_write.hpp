#pragma once
// Results of a fit problem as nodes. Inside of this box.

#include <optional>
#include <string>

#include "document/diagnostic.hpp"
#include "document/node.hpp"
#include "engine/fit/problem.hpp"

namespace cotter::problem {

document::Node fit_result_node(const engine::fit::Check& check, const engine::fit::CheckResult& result,
                               const std::string& source);

/// The limits of a class, a bearing or a thread; nothing, with diagnostics, when there are none.
std::optional<document::Node> fit_limits_node(const document::Node& node, const std::string& field,
                                              document::Diagnostics& diagnostics);

/// `none`, `from` or `to`.
std::string word_for(engine::fit::Edge edge);
/// `name_nm` for lengths, `name_base` for the rest.
std::string counted(const std::string& name, quantity::Dimension dimension);
document::Node range_node(const quantity::Range& range, quantity::Dimension dimension);

}  // namespace cotter::problem
