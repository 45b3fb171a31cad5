#pragma once
// Numbers as they stand in a text, read exactly: decimals, inch fractions, signed deviations. Inside of this box.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

#include "quantity/text.hpp"
#include "quantity/units.hpp"

namespace cotter::quantity {

__extension__ typedef __int128 Int128;

/// A place in a text. Copy it to look ahead.
struct Cursor {
  std::string_view text;
  std::size_t at = 0;

  std::string_view rest() const { return text.substr(at); }
  bool done() const { return at == text.size(); }
  char peek(std::size_t ahead = 0) const { return at + ahead < text.size() ? text[at + ahead] : '\0'; }
  bool at_digit(std::size_t ahead = 0) const { return peek(ahead) >= '0' && peek(ahead) <= '9'; }
  bool take(std::string_view symbol);
  void skip_spaces();
  /// The bytes up to the next space.
  std::string_view word() const;
};

/// Bytes of the space that `text` starts with (blank, tab, line break, no-break and thin spaces); 0 when none.
std::size_t leading_space(std::string_view text);

/// The start of `text`, cut between characters, short enough for a message.
std::string excerpt(std::string_view text);

/// A number without its unit. Bounded so that every product with a unit stays inside 128 bits: below 1e16, with at most
/// nine decimals, or a fraction with a denominator of at most 1024.
struct Exact {
  Int128 numerator = 0;
  Int128 denominator = 1;
  bool fraction = false;  ///< written with a fraction bar

  Exact operator-() const { return {-numerator, denominator, fraction}; }
};

/// The sum; at most two terms, else the bounds of Exact no longer hold.
Exact operator+(const Exact& a, const Exact& b);
bool operator<(const Exact& a, const Exact& b);

/// Whole base units around an amount that may lie between two of them.
struct BaseUnits {
  Int128 floor = 0;
  Int128 nearest = 0;
  Int128 ceiling = 0;
};

/// Requires a number above zero when the unit is a reciprocal.
BaseUnits in_base_units(const Exact& number, const Unit& unit);

/// Takes a sign; false for minus, nothing when there is none.
std::optional<bool> take_sign(Cursor& cursor);

/// Takes an unsigned number.
tl::expected<Exact, ValueError> take_number(Cursor& cursor);

struct WrittenDeviations {
  Exact lower;
  Exact upper;
};

/// Does a deviation start here?
bool at_deviation(const Cursor& cursor);
/// Takes `±0.02`, `+0.05/-0.02` or `+0.05 -0.02`.
tl::expected<WrittenDeviations, ValueError> take_deviations(Cursor& cursor);

}  // namespace cotter::quantity
