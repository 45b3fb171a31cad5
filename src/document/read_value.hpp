#pragma once
// Written values of a document: which origin they have when they name none, and what fills an unknown one.

#include <map>
#include <optional>
#include <string>

#include "document/read_spot.hpp"
#include "model/kind.hpp"
#include "model/operation.hpp"
#include "model/part.hpp"

namespace cotter::document {

/// What stands behind the values of one part.
struct ValueContext {
  std::string paper;                  ///< paper of the part, empty when there is none
  const model::Shop* shop = nullptr;  ///< tools that measured values rest on
};

/// Which amounts make sense.
enum class Sign { any, not_negative, positive };

/// A value as written, its origin settled: text without an origin word is the maker's when the part has a paper, else
/// assumed. Empty when nothing stands there or the schema check has refused it. `?` comes back without a range.
std::optional<quantity::Value> read_written(const Spot& spot, quantity::Dimension dimension,
                                            const ValueContext& context);

/// A dimension of an interface, ready for an engine.
///
/// **Method** `?` becomes the whole range that the kind permits. A value without deviations gets those of the tool that
/// measured it, when the shop owns it (plus and minus its resolution), else the kind's own `unstated` ones.
/// **Fails with** `out_of_range` when the nominal lies outside what the kind permits.
std::optional<quantity::Value> read_dimension(const Spot& spot, const model::InterfaceKind& kind,
                                              const model::KindDimension& dimension, const ValueContext& context,
                                              Diagnostics& diagnostics);

/// A value that must be known. **Fails with** `bad_value` for `?`, `out_of_range` for a wrong sign.
std::optional<quantity::Value> read_number(const Spot& spot, quantity::Dimension dimension, Sign sign,
                                           const ValueContext& context, Diagnostics& diagnostics);

/// A known value whose unit tells its dimension; a bare whole number is a count. **Fails with** `bad_value`.
std::optional<quantity::Value> read_any_value(const Spot& spot, Diagnostics& diagnostics);

/// A value without deviations with those of the tool that measured it, when the shop owns it; else as it is.
quantity::Value with_reading_error(quantity::Value value, const model::Shop* shop);

/// Deviations without a value, `±0.02 mm` or `+0.05/-0.02 mm`. **Fails with** `bad_value`.
std::optional<quantity::Range> read_deviations(const Spot& spot, quantity::Dimension dimension,
                                               Diagnostics& diagnostics);

/// An amount of money, `54.00 EUR`. **Fails with** `bad_value`.
std::optional<model::Price> read_money(const Spot& spot, Diagnostics& diagnostics);

/// `{round: 6.5 mm}`, or `{width: 7 mm, length: 15 mm}` with the length at least the width.
std::optional<model::ClearShape> read_shape(const Spot& spot, const ValueContext& context, Diagnostics& diagnostics);

/// Amount with its unit, as it stands in a diagnostic.
std::string shown(const quantity::Value& value);

}  // namespace cotter::document
