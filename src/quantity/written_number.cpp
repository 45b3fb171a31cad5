#include "quantity/written_number.hpp"

#include <fmt/format.h>

namespace cotter::quantity {
namespace {

using Code = ValueError::Code;

constexpr std::size_t k_most_whole_digits = 16;
constexpr std::size_t k_most_decimals = 9;
constexpr Int128 k_decimal_scale = 1'000'000'000;
constexpr Int128 k_most_denominator = 1024;
constexpr std::size_t k_most_fraction_digits = 6;

std::string_view take_digits(Cursor& cursor) {
  const std::size_t begin = cursor.at;
  while (cursor.at_digit()) ++cursor.at;
  return cursor.text.substr(begin, cursor.at - begin);
}

std::string_view without_leading_zeros(std::string_view digits) {
  const std::size_t first = digits.find_first_not_of('0');
  return first == std::string_view::npos ? std::string_view{} : digits.substr(first);
}

std::string_view without_trailing_zeros(std::string_view digits) {
  return digits.substr(0, digits.find_last_not_of('0') + 1);
}

Int128 whole_number(std::string_view digits) {
  Int128 number = 0;
  for (const char digit : digits) number = 10 * number + (digit - '0');
  return number;
}

tl::unexpected<ValueError> refuse(Code code, const Cursor& begin, const Cursor& end, std::string accepted,
                                  std::string suggestion = {}) {
  const std::string_view found = begin.text.substr(begin.at, end.at - begin.at);
  return tl::unexpected(ValueError{code, begin.at, excerpt(found), std::move(accepted), std::move(suggestion)});
}

struct FractionPart {
  std::string_view numerator;
  std::string_view denominator;
};

/// Takes `1/8`, only if all of it is there.
std::optional<FractionPart> take_fraction_part(Cursor& cursor) {
  Cursor ahead = cursor;
  FractionPart part;
  part.numerator = take_digits(ahead);
  if (part.numerator.empty() || !ahead.take("/")) return std::nullopt;
  part.denominator = take_digits(ahead);
  if (part.denominator.empty()) return std::nullopt;
  cursor = ahead;
  return part;
}

/// Takes the fraction of `1-1/8` or `1 1/8`, the cursor standing behind the whole number.
std::optional<FractionPart> take_mixed_part(Cursor& cursor) {
  Cursor ahead = cursor;
  if (!ahead.take("-")) ahead.skip_spaces();
  if (ahead.at == cursor.at) return std::nullopt;
  const auto part = take_fraction_part(ahead);
  if (part) cursor = ahead;
  return part;
}

tl::expected<Exact, ValueError> fraction_of(Int128 whole, const FractionPart& part, const Cursor& begin,
                                            const Cursor& end) {
  const std::string_view bottom = without_leading_zeros(part.denominator);
  const std::string_view top = without_leading_zeros(part.numerator);
  const bool bad_bottom = bottom.empty() || bottom.size() > 4 || whole_number(bottom) > k_most_denominator;
  if (bad_bottom || top.size() > k_most_fraction_digits)
    return refuse(Code::not_a_number, begin, end, "a fraction with a denominator from 1 to 1024");
  const Int128 denominator = whole_number(bottom);
  return Exact{whole * denominator + whole_number(top), denominator, true};
}

/// Refuses what may be a thousands separator; `end` stands behind the number.
std::optional<ValueError> separator_trouble(const Cursor& begin, Cursor end, std::string_view whole,
                                            std::string_view decimals, char mark) {
  const bool second_mark = (end.peek() == '.' || end.peek() == ',') && end.at_digit(1);
  if (second_mark) {
    while (end.at_digit() || ((end.peek() == '.' || end.peek() == ',') && end.at_digit(1))) ++end.at;
    return refuse(Code::not_a_number, begin, end, "one decimal point and no thousands separators").value();
  }
  const bool may_be_thousands =
      mark == ',' && decimals.size() == 3 && !whole.empty() && whole.size() <= 3 && whole[0] != '0';
  if (!may_be_thousands) return std::nullopt;
  return refuse(Code::not_a_number, begin, end,
                "a decimal point: a comma before three digits may be a thousands separator",
                fmt::format("{}.{}", whole, decimals))
      .value();
}

}  // namespace

bool Cursor::take(std::string_view symbol) {
  if (rest().substr(0, symbol.size()) != symbol) return false;
  at += symbol.size();
  return true;
}

void Cursor::skip_spaces() {
  while (const std::size_t space = leading_space(rest())) at += space;
}

std::string_view Cursor::word() const {
  Cursor end = *this;
  while (!end.done() && leading_space(end.rest()) == 0) ++end.at;
  return text.substr(at, end.at - at);
}

std::size_t leading_space(std::string_view text) {
  if (text.empty()) return 0;
  const char first = text.front();
  if (static_cast<unsigned char>(first) < 0x80)
    return first == ' ' || first == '\t' || first == '\n' || first == '\r' ? 1 : 0;
  for (const std::string_view space : {"\u00A0", "\u2009", "\u202F"})
    if (text.starts_with(space)) return space.size();
  return 0;
}

std::string excerpt(std::string_view text) {
  constexpr std::size_t k_most_bytes = 40;
  if (text.size() <= k_most_bytes) return std::string(text);
  std::size_t end = k_most_bytes;
  const auto inside_character = [&] { return (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U; };
  while (end > k_most_bytes - 4 && inside_character()) --end;
  return fmt::format("{}...", text.substr(0, end));
}

Exact operator+(const Exact& a, const Exact& b) {
  const bool fraction = a.fraction || b.fraction;
  if (a.denominator == b.denominator) return {a.numerator + b.numerator, a.denominator, fraction};
  return {a.numerator * b.denominator + b.numerator * a.denominator, a.denominator * b.denominator, fraction};
}

bool operator<(const Exact& a, const Exact& b) {
  return a.denominator == b.denominator ? a.numerator < b.numerator
                                        : a.numerator * b.denominator < b.numerator * a.denominator;
}

BaseUnits in_base_units(const Exact& number, const Unit& unit) {
  const bool reciprocal = unit.rule == UnitRule::per_inch;
  const Int128 top = reciprocal ? unit.numerator * number.denominator : number.numerator * unit.numerator;
  const Int128 bottom = reciprocal ? number.numerator : number.denominator * unit.denominator;
  Int128 floor = top / bottom;
  if (floor * bottom > top) --floor;
  const Int128 rest = top - floor * bottom;
  return {floor, floor + (2 * rest >= bottom ? 1 : 0), floor + (rest > 0 ? 1 : 0)};
}

std::optional<bool> take_sign(Cursor& cursor) {
  if (cursor.take("+")) return true;
  if (cursor.take("-") || cursor.take("\u2212")) return false;
  return std::nullopt;
}

tl::expected<Exact, ValueError> take_number(Cursor& cursor) {
  const Cursor begin = cursor;
  if (const auto part = take_fraction_part(cursor)) {
    const std::string_view top = without_leading_zeros(part->numerator);
    if (top.size() <= k_most_fraction_digits) return fraction_of(0, *part, begin, cursor);
    return refuse(Code::not_a_number, begin, cursor, "a fraction with a numerator of at most 6 digits");
  }
  const std::string_view whole = take_digits(cursor);
  const char mark = cursor.peek();
  std::string_view decimals;
  if ((mark == '.' || mark == ',') && cursor.at_digit(1)) {
    ++cursor.at;
    decimals = take_digits(cursor);
  }
  if (whole.empty() && decimals.empty()) {
    cursor.at += cursor.word().size();
    return refuse(Code::not_a_number, begin, cursor, "a number such as 41.5");
  }
  if (auto trouble = separator_trouble(begin, cursor, whole, decimals, mark)) return tl::unexpected(*trouble);
  if (without_leading_zeros(whole).size() > k_most_whole_digits)
    return refuse(Code::too_large, begin, cursor, "a number below 1e16");
  if (decimals.empty()) {
    if (const auto part = take_mixed_part(cursor)) return fraction_of(whole_number(whole), *part, begin, cursor);
    if (cursor.peek() == '.' && cursor.peek(1) != '.') {
      ++cursor.at;
      return refuse(Code::not_a_number, begin, cursor, "a digit behind the decimal point", std::string(whole));
    }
  }
  decimals = without_trailing_zeros(decimals);
  if (decimals.size() > k_most_decimals) return refuse(Code::too_fine, begin, cursor, "at most 9 decimals");
  Int128 scale = k_decimal_scale;
  for (std::size_t i = 0; i < decimals.size(); ++i) scale /= 10;
  return Exact{whole_number(whole) * k_decimal_scale + whole_number(decimals) * scale, k_decimal_scale};
}

bool at_deviation(const Cursor& cursor) {
  Cursor ahead = cursor;
  return ahead.take("±") || take_sign(ahead).has_value();
}

tl::expected<WrittenDeviations, ValueError> take_deviations(Cursor& cursor) {
  static const std::string both = "both deviations, upper first: +0.05/-0.02 or ±0.02; a range: 5..6";
  const Cursor begin = cursor;
  const auto malformed = [&] { return refuse(Code::deviation_wrong, begin, cursor, both); };
  const auto number = [&]() -> tl::expected<Exact, ValueError> {
    cursor.skip_spaces();
    if (!cursor.at_digit() && cursor.peek() != '.') return malformed();
    return take_number(cursor);
  };
  if (cursor.take("±") || cursor.take("+/-")) return number().map([](Exact n) { return WrittenDeviations{-n, n}; });

  const bool upper_sign = take_sign(cursor).value_or(true);
  const auto upper = number();
  if (!upper) return tl::unexpected(upper.error());
  const Cursor first_end = cursor;
  cursor.skip_spaces();
  if (cursor.take("/")) cursor.skip_spaces();
  const Cursor second_begin = cursor;
  const auto lower_sign = take_sign(cursor);
  if (!lower_sign) {
    cursor = first_end;
    return malformed();
  }
  const auto lower = number();
  if (!lower) return tl::unexpected(lower.error());
  const WrittenDeviations deviations{*lower_sign ? *lower : -*lower, upper_sign ? *upper : -*upper};
  if (!(deviations.upper < deviations.lower)) return deviations;
  const auto text = [&](const Cursor& a, const Cursor& b) { return begin.text.substr(a.at, b.at - a.at); };
  return refuse(Code::deviation_wrong, begin, cursor, "the upper deviation first, then the lower one",
                fmt::format("{}/{}", text(second_begin, cursor), text(begin, first_end)));
}

}  // namespace cotter::quantity
