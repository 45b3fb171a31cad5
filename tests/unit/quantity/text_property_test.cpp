#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "quantity/text.hpp"

namespace cotter::quantity {
namespace {

using enum Dimension;

constexpr std::int64_t k_most = 1'000'000'000'000'000;

/// Uniform in the exponent: small and huge amounts alike.
std::int64_t any_amount(std::int64_t most) {
  const std::int64_t bound = *rc::gen::element<std::int64_t>(9, 1'000, 1'000'000, 1'000'000'000, k_most);
  return *rc::gen::resize(1'000, rc::gen::inRange<std::int64_t>(0, std::min(bound, most) + 1));
}

Value any_value(Dimension dimension) {
  const bool is_signed = dimension == length || dimension == angle;
  Value value;
  value.dimension = dimension;
  value.nominal = any_amount(k_most) * (is_signed && *rc::gen::arbitrary<bool>() ? -1 : 1);
  const std::int64_t room_below = is_signed ? k_most + value.nominal : value.nominal;
  const std::int64_t room_above = k_most - value.nominal;
  if (*rc::gen::arbitrary<bool>()) {
    value.deviations = Deviations::stated;
    value.lower = -any_amount(room_below);
    value.upper = any_amount(room_above);
    if (*rc::gen::arbitrary<bool>() && -value.lower <= room_above) value.upper = -value.lower;
    if (*rc::gen::inRange(0, 4) == 0) value.lower = value.upper;
  }
  value.origin.kind =
      *rc::gen::element(OriginKind::measured, OriginKind::maker, OriginKind::standard, OriginKind::assumed);
  return value;
}

Dimension any_dimension() {
  return *rc::gen::element(length, angle, torque, force, mass, pressure, duration, count);
}

RC_GTEST_PROP(TextProperty, what_is_printed_is_read_back_to_the_same_limits, ()) {
  const Dimension dimension = any_dimension();
  const Value value = any_value(dimension);
  const NumberStyle style{*rc::gen::element(LengthUnit::millimetre, LengthUnit::inch),
                          *rc::gen::element(DecimalMark::point, DecimalMark::comma)};
  const std::string text = print_value(value, style);
  RC_LOG() << text << "\n";
  const auto read = parse_value(text, dimension);
  RC_ASSERT(read.has_value());
  RC_ASSERT(read->dimension == dimension);
  RC_ASSERT(read->nominal == value.nominal);
  RC_ASSERT(read->range() == value.range());
  RC_ASSERT(read->deviations == value.deviations);
  RC_ASSERT(read->origin.kind == value.origin.kind);
  RC_ASSERT(read->text == text);
}

RC_GTEST_PROP(TextProperty, amounts_are_read_back_exactly, ()) {
  const Dimension dimension = any_dimension();
  const std::int64_t amount = any_amount(k_most);
  const NumberStyle style{*rc::gen::element(LengthUnit::millimetre, LengthUnit::inch), DecimalMark::point};
  const auto read = parse_value(print_amount(amount, dimension, style), dimension);
  RC_ASSERT(read.has_value());
  RC_ASSERT(read->nominal == amount && read->lower == 0 && read->upper == 0);
}

RC_GTEST_PROP(TextProperty, a_sum_of_decimal_millimetres_is_never_open_against_the_sum_by_hand, ()) {
  const int terms = *rc::gen::inRange(1, 40);
  Interval<Length> sum;
  long hundredths = 0;
  for (int i = 0; i < terms; ++i) {
    const int term = *rc::gen::inRange(0, 10'000);
    hundredths += term;
    sum = sum + length_interval(*parse_value(fmt::format("{}.{:02} mm", term / 100, term % 100), length));
  }
  const auto by_hand =
      length_interval(*parse_value(fmt::format("{}.{:02} mm", hundredths / 100, hundredths % 100), length));
  RC_ASSERT(at_most(sum, by_hand) == Certainty::holds);
  RC_ASSERT(at_most(by_hand, sum) == Certainty::holds);
}

// 25.4 mm / 64 = 0.396875 mm.
RC_GTEST_PROP(TextProperty, a_change_of_unit_keeps_the_verdict, ()) {
  const int sixtyfourths = *rc::gen::inRange(1, 2'000);
  const int limit = sixtyfourths + *rc::gen::inRange(-1, 2);
  const long micro = 396'875L * sixtyfourths;
  const auto in_inches = length_interval(*parse_value(fmt::format("{}/64 in", sixtyfourths), length));
  const auto in_mm =
      length_interval(*parse_value(fmt::format("{}.{:06} mm", micro / 1'000'000, micro % 1'000'000), length));
  const auto in_cm =
      length_interval(*parse_value(fmt::format("{}.{:07} cm", micro / 10'000'000, micro % 10'000'000), length));
  const auto bound = length_interval(*parse_value(fmt::format("{}/64 in", limit), length));
  const Certainty verdict = at_most(in_inches, bound);
  RC_ASSERT(verdict == (sixtyfourths <= limit ? Certainty::holds : Certainty::fails));
  RC_ASSERT(at_most(in_mm, bound) == verdict);
  RC_ASSERT(at_most(in_cm, bound) == verdict);
}

RC_GTEST_PROP(TextProperty, a_thread_pitch_times_its_threads_encloses_an_inch, ()) {
  const int threads = *rc::gen::inRange(1, 200);
  const auto pitch = length_interval(*parse_value(fmt::format("{} tpi", threads), length));
  RC_ASSERT(pitch.low() * threads <= nanometres(25'400'000));
  RC_ASSERT(nanometres(25'400'000) <= pitch.high() * threads);
  RC_ASSERT(pitch.width() <= nanometres(1));
}

RC_GTEST_PROP(TextProperty, parsing_never_throws_on_any_bytes, (const std::string& bytes)) {
  const Dimension dimension = any_dimension();
  const auto value = parse_value(bytes, dimension);
  if (!value) RC_ASSERT(value.error().offset <= bytes.size());
  names_origin(bytes);
}

RC_GTEST_PROP(TextProperty, parsing_never_throws_on_nearly_right_text, ()) {
  static const std::vector<std::string> pieces{"≈", "?", "41", ".",  "..", ",",   "0.05", "+", "-",   "±",        "/",
                                               " ", "1", "/8", "mm", "in", "tpi", "N",    "m", "psi", "measured", "("};
  std::string text;
  for (const auto index : *rc::gen::container<std::vector<std::size_t>>(rc::gen::inRange<std::size_t>(0, 22)))
    text += pieces[index];
  const auto value = parse_value(text, any_dimension());
  if (value && value->range_known) {
    RC_ASSERT(value->lower <= value->upper);
    RC_ASSERT(parse_value(print_value(*value), value->dimension)->range() == value->range());
  }
}

}  // namespace
}  // namespace cotter::quantity
