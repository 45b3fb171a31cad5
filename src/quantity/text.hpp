#pragma once
// Values to and from the text a mechanic writes: `41.00 +0.05/-0.02 mm`, `30 ±0.01 mm measured`, `1.37 in`,
// `1-1/8 in`, `24 tpi`, `5 N·m`, `73.5°`, `≈ 48 mm`, `?`. Docs: docs/notation.md.

#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

#include "quantity/value.hpp"

namespace cotter::quantity {

/// What is wrong with a written value, and how to mend it.
struct ValueError {
  enum class Code {
    empty,
    not_a_number,
    unit_missing,
    unit_unknown,
    unit_wrong,
    deviation_wrong,
    too_large,
    too_fine,
    trailing
  };
  Code code;
  std::size_t offset = 0;  ///< byte in the text where the trouble starts
  std::string found;
  std::string accepted;    ///< what would be accepted there
  std::string suggestion;  ///< the nearest right word, or empty
};

/// Reads a value of the given dimension.
///
/// **Fails with** a ValueError when the unit is missing, unknown or of another dimension, when a deviation is malformed
/// or the lower one exceeds the upper one, when the amount is beyond 1e15 base units, or when it is finer than the base
/// unit can hold exactly (inches that are not whole nanometres, threads per inch and psi are enclosed outward by less
/// than one base unit a side instead, and count as having their deviations stated).
tl::expected<Value, ValueError> parse_value(std::string_view text, Dimension dimension);

/// True when the text itself says where its value comes from (an origin word, ≈ or ?): a reader must not put the origin
/// of its surroundings over it.
bool names_origin(std::string_view text);

enum class LengthUnit { millimetre, inch };
enum class DecimalMark { point, comma };

/// How numbers are printed; one formatter for all words, papers and drawings.
struct NumberStyle {
  LengthUnit length = LengthUnit::millimetre;
  DecimalMark mark = DecimalMark::point;
};

/// Shortest exact decimal of an amount in `unit_for` its dimension, without the unit: 41.96, -0.5. Never rounds, except
/// that inches and minutes with endless decimals get as many (8 and 5) as tell one base unit from the next.
std::string print_number(std::int64_t base_units, Dimension dimension, const NumberStyle& style = {});
/// The amount rounded half away from zero to `decimals`, for words where the exact digits only disturb.
std::string print_rounded(std::int64_t base_units, Dimension dimension, int decimals, const NumberStyle& style = {});
/// Amount with unit: "41.96 mm". Exact: what inches or minutes cannot hold is given in millimetres or seconds.
std::string print_amount(std::int64_t base_units, Dimension dimension, const NumberStyle& style = {});
/// Value with unit, deviations and origin mark, in a form that `parse_value` reads back to the same limits and origin
/// kind (the range of an unknown value is for people: it is read back as `?`).
std::string print_value(const Value& value, const NumberStyle& style = {});
std::string_view unit_for(Dimension dimension, const NumberStyle& style = {});

/// The entry of `candidates` nearest to `word` by edit distance (transpositions count one), if one is near enough to be
/// what was meant: at most a third of the letters differ.
std::optional<std::string> nearest_word(std::string_view word, const std::vector<std::string>& candidates);

}  // namespace cotter::quantity
