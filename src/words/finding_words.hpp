#pragma once
// Findings in words.

#include <string>
#include <vector>

#include "model/finding.hpp"
#include "quantity/text.hpp"

namespace cotter::words {

/// What a list shows at the right of a finding: "0.5 mm too large", "1 part", "42 to 43 mm".
std::string number_shown(const model::Finding& finding, const quantity::NumberStyle& style = {});

/// The finding in plain sentences, one an entry: what is, what it must be, and what to do.
std::vector<std::string> sentences(const model::Finding& finding, const quantity::NumberStyle& style = {});

/// The working: rule, each value with its origin, formula with numbers put in, window, margin, source, who may pass it.
std::vector<std::string> working(const model::Finding& finding, const quantity::NumberStyle& style = {});

/// One line of the working: a value with its role, its origin and what it belongs to.
std::string value_line(const model::NamedValue& named, const quantity::NumberStyle& style = {});

/// An amount or a range, rounded to a thousandth for lengths: "41.96 mm", "41.94 to 41.98 mm".
std::string show(const quantity::Range& range, quantity::Dimension dimension, const quantity::NumberStyle& style = {});
/// "from 0.3 to 1 mm", "at least 3 mm".
std::string show_window(const quantity::Range& window, quantity::Dimension dimension,
                        const quantity::NumberStyle& style = {});
/// Value with its origin spelt out: "41.96 ±0.02 mm, maker: frame sheet, page 2".
std::string show_origin(const quantity::Value& value, const quantity::NumberStyle& style = {});

}  // namespace cotter::words
