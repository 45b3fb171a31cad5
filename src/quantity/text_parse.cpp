#include <algorithm>
#include <fmt/format.h>

#include "quantity/text.hpp"
#include "quantity/units.hpp"
#include "quantity/written_number.hpp"

namespace cotter::quantity {
namespace {

using Code = ValueError::Code;
template <class T>
using Read = tl::expected<T, ValueError>;

constexpr std::int64_t k_most_base_units = 1'000'000'000'000'000;
constexpr std::string_view k_origin_words = "measured, maker, standard or assumed";

constexpr bool may_be_negative(Dimension dimension) {
  return dimension == Dimension::length || dimension == Dimension::angle;
}

std::optional<OriginKind> origin_of(std::string_view word) {
  for (const OriginKind kind : {OriginKind::measured, OriginKind::maker, OriginKind::standard, OriginKind::assumed})
    if (word == word_for(kind)) return kind;
  return std::nullopt;
}

/// Start and end of the text without the spaces around it.
std::pair<std::size_t, std::size_t> trimmed(std::string_view text) {
  Cursor begin{text};
  begin.skip_spaces();
  std::size_t end = begin.at;
  for (Cursor cursor = begin; !cursor.done(); cursor.skip_spaces()) {
    cursor.at += cursor.word().size();
    end = cursor.at;
  }
  return {begin.at, end};
}

/// The number, its ends, and where they stand in the text.
struct Written {
  Exact nominal;
  Exact low;
  Exact high;
  enum class Form { plain, deviations, range } form = Form::plain;
  std::size_t begin = 0;
  std::size_t end = 0;
};

/// Reads one value from left to right: mark, number, deviations or range, unit, origin word.
class ValueReader {
 public:
  ValueReader(std::string_view text, Dimension dimension) : cursor_{text}, dimension_(dimension) {}

  Read<Value> read();

 private:
  bool is_unknown() const;
  Read<Exact> read_signed_number();
  Read<Written> read_number();
  Read<Unit> read_unit();
  Read<Value> in_base_units_of(const Unit& unit, const Written& written) const;
  std::optional<ValueError> read_origin(const Written& written, Value& value);
  std::optional<ValueError> late_deviations(const Written& written) const;

  ValueError trouble(Code code, std::size_t begin, std::size_t end, std::string accepted,
                     std::string suggestion = {}) const {
    return {code, begin, excerpt(cursor_.text.substr(begin, end - begin)), std::move(accepted), std::move(suggestion)};
  }
  ValueError trouble_at_word(Code code, std::string accepted, std::string suggestion = {}) const {
    return trouble(code, cursor_.at, cursor_.at + cursor_.word().size(), std::move(accepted), std::move(suggestion));
  }

  Cursor cursor_;
  Dimension dimension_;
  std::size_t unit_begin_ = 0;
  std::size_t unit_end_ = 0;
};

/// `?`, `unknown`, or a question mark with the permitted range behind it in brackets, which the reader knows better.
bool ValueReader::is_unknown() const {
  std::string_view rest = cursor_.rest();
  if (rest == "?" || rest == word_for(OriginKind::unknown)) return true;
  if (rest.front() != '?') return false;
  Cursor remark{rest, 1};
  remark.skip_spaces();
  return remark.peek() == '(' && rest.find(')', remark.at) == rest.size() - 1;
}

Read<Exact> ValueReader::read_signed_number() {
  const Cursor begin = cursor_;
  const bool positive = take_sign(cursor_).value_or(true);
  if (!cursor_.at_digit() && cursor_.peek() != '.') {
    cursor_ = begin;
    return tl::unexpected(trouble_at_word(Code::not_a_number, std::string(example_of(dimension_))));
  }
  const auto number = take_number(cursor_);
  if (!number || positive) return number;
  if (!may_be_negative(dimension_))
    return tl::unexpected(trouble(Code::not_a_number, begin.at, cursor_.at,
                                  fmt::format("a {} that is not negative", word_for(dimension_))));
  return -*number;
}

Read<Written> ValueReader::read_number() {
  Written written;
  written.begin = cursor_.at;
  const auto first = read_signed_number();
  if (!first) return tl::unexpected(first.error());
  written.nominal = written.low = written.high = *first;
  written.end = cursor_.at;
  const std::string_view first_text = cursor_.text.substr(written.begin, written.end - written.begin);

  Cursor ahead = cursor_;
  ahead.skip_spaces();
  if (ahead.take("..")) {
    ahead.skip_spaces();
    cursor_ = ahead;
    const auto second = read_signed_number();
    if (!second) return tl::unexpected(second.error());
    written.high = *second;
    written.form = Written::Form::range;
    const std::string_view second_text = cursor_.text.substr(ahead.at, cursor_.at - ahead.at);
    if (written.high < written.low)
      return tl::unexpected(trouble(Code::deviation_wrong, written.begin, cursor_.at,
                                    "the smaller limit first, then the larger one",
                                    fmt::format("{}..{}", second_text, first_text)));
  } else if (at_deviation(ahead)) {
    cursor_ = ahead;
    const auto deviations = take_deviations(cursor_);
    if (!deviations) return tl::unexpected(deviations.error());
    written.low = written.nominal + deviations->lower;
    written.high = written.nominal + deviations->upper;
    written.form = Written::Form::deviations;
  } else if (ahead.at_digit()) {
    const std::size_t end = ahead.at + ahead.word().size();
    return tl::unexpected(trouble(Code::not_a_number, written.begin, end, "a number without gaps"));
  }
  written.end = cursor_.at;
  return written;
}

Read<Unit> ValueReader::read_unit() {
  cursor_.skip_spaces();
  unit_begin_ = unit_end_ = cursor_.at;
  const std::string_view word = cursor_.word();
  const bool no_unit = word.empty() || origin_of(word);
  const auto unit = leading_unit(cursor_.rest());
  const std::string accepted(accepted_units(dimension_));
  if (dimension_ == Dimension::count) {
    if (no_unit || !unit) return unit_of_counts();
    return tl::unexpected(
        trouble(Code::unit_wrong, cursor_.at, cursor_.at + unit->spelling.size(), accepted, std::string{}));
  }
  if (no_unit) return tl::unexpected(trouble_at_word(Code::unit_missing, accepted));
  if (!unit && at_deviation(cursor_))
    return tl::unexpected(
        trouble_at_word(Code::deviation_wrong, "the unit here: limits are given once, in front of it"));
  if (!unit)
    return tl::unexpected(trouble_at_word(Code::unit_unknown, accepted, nearest_unit(word, dimension_, Guess::far)));
  unit_end_ = cursor_.at + unit->spelling.size();
  if (unit->dimension != dimension_)
    return tl::unexpected(trouble(Code::unit_wrong, unit_begin_, unit_end_,
                                  fmt::format("{}, a unit of {}", accepted, word_for(dimension_)),
                                  nearest_unit(unit->spelling, dimension_, Guess::near)));
  cursor_.at = unit_end_;
  return *unit;
}

Read<Value> ValueReader::in_base_units_of(const Unit& unit, const Written& written) const {
  const auto refuse = [&](Code code, std::string accepted) {
    return tl::unexpected(trouble(code, written.begin, written.end, std::move(accepted)));
  };
  if (unit.rule == UnitRule::per_inch && written.form != Written::Form::plain)
    return refuse(Code::deviation_wrong, "threads per inch without deviations");
  const bool fraction = written.nominal.fraction || written.low.fraction || written.high.fraction;
  if (fraction && unit.rule != UnitRule::inch)
    return refuse(Code::not_a_number, "a decimal number; fractions are read in inches only");
  if (unit.rule == UnitRule::per_inch && written.nominal.numerator <= 0)
    return refuse(Code::not_a_number, "a number of threads above zero");

  const BaseUnits low = in_base_units(written.low, unit);
  const BaseUnits high = in_base_units(written.high, unit);
  BaseUnits nominal = in_base_units(written.nominal, unit);
  const auto between = [](const BaseUnits& amount) { return amount.floor != amount.ceiling; };
  if (unit.rule == UnitRule::exact && (between(low) || between(nominal) || between(high)))
    return refuse(Code::too_fine, std::string(finest_step(dimension_)));
  const bool too_large =
      std::max({-low.floor, low.floor, high.ceiling, nominal.nearest, -nominal.nearest}) > k_most_base_units;
  if (too_large) return refuse(Code::too_large, fmt::format("at most {}", print_amount(k_most_base_units, dimension_)));
  if (low.floor < 0 && !may_be_negative(dimension_))
    return refuse(Code::deviation_wrong, fmt::format("limits of a {} that are not negative", word_for(dimension_)));

  Value value;
  value.dimension = dimension_;
  if (written.form == Written::Form::range) {
    const Int128 sum = low.floor + high.ceiling;
    nominal.nearest = sum >= 0 || sum % 2 == 0 ? sum / 2 : sum / 2 - 1;
  }
  value.nominal = static_cast<std::int64_t>(nominal.nearest);
  value.lower = static_cast<std::int64_t>(low.floor) - value.nominal;
  value.upper = static_cast<std::int64_t>(high.ceiling) - value.nominal;
  value.deviations = written.form == Written::Form::plain ? Deviations::unstated : Deviations::stated;
  return value;
}

/// `41 mm ±0.02`: understood, but there is one place for deviations.
std::optional<ValueError> ValueReader::late_deviations(const Written& written) const {
  if (!at_deviation(cursor_)) return std::nullopt;
  Cursor ahead = cursor_;
  std::string suggestion;
  if (written.form == Written::Form::plain && take_deviations(ahead))
    suggestion = fmt::format("{} {} {}", cursor_.text.substr(written.begin, written.end - written.begin),
                             cursor_.text.substr(cursor_.at, ahead.at - cursor_.at),
                             cursor_.text.substr(unit_begin_, unit_end_ - unit_begin_));
  return trouble(Code::deviation_wrong, cursor_.at, cursor_.text.size(), "the deviations in front of the unit",
                 suggestion);
}

std::optional<ValueError> ValueReader::read_origin(const Written& written, Value& value) {
  cursor_.skip_spaces();
  if (cursor_.done()) return std::nullopt;
  if (auto late = late_deviations(written)) return late;
  const std::string_view word = cursor_.word();
  const auto kind = origin_of(word);
  if (!kind) {
    static const std::vector<std::string> words{"measured", "maker", "standard", "assumed"};
    return trouble_at_word(Code::trailing, fmt::format("{}, or nothing", k_origin_words),
                           nearest_word(word, words).value_or(""));
  }
  if (value.origin.kind == OriginKind::assumed && *kind != OriginKind::assumed)
    return trouble_at_word(Code::trailing, "nothing: ≈ already says that the value is assumed");
  value.origin.kind = *kind;
  cursor_.at += word.size();
  cursor_.skip_spaces();
  if (cursor_.done()) return std::nullopt;
  return trouble(Code::trailing, cursor_.at, cursor_.text.size(), "nothing behind the origin");
}

Read<Value> ValueReader::read() {
  const auto [begin, end] = trimmed(cursor_.text);
  const std::string text(cursor_.text.substr(begin, end - begin));
  cursor_.text = cursor_.text.substr(0, end);
  cursor_.at = begin;
  if (text.empty())
    return tl::unexpected(trouble(Code::empty, begin, begin, fmt::format("{}, or ?", example_of(dimension_))));
  if (is_unknown()) {
    Value unknown;
    unknown.dimension = dimension_;
    unknown.range_known = false;
    unknown.text = text;
    return unknown;
  }
  const bool marked_assumed = cursor_.take("≈");
  cursor_.skip_spaces();
  const auto written = read_number();
  if (!written) return tl::unexpected(written.error());
  const auto unit = read_unit();
  if (!unit) return tl::unexpected(unit.error());
  auto value = in_base_units_of(*unit, *written);
  if (!value) return value;
  value->text = text;
  if (marked_assumed) value->origin.kind = OriginKind::assumed;
  if (const auto wrong = read_origin(*written, *value)) return tl::unexpected(*wrong);
  if (value->origin.kind == OriginKind::unknown) value->origin.kind = OriginKind::assumed;
  return value;
}

}  // namespace

tl::expected<Value, ValueError> parse_value(std::string_view text, Dimension dimension) {
  return ValueReader(text, dimension).read();
}

bool names_origin(std::string_view text) {
  const auto [begin, end] = trimmed(text);
  const std::string_view inside = text.substr(begin, end - begin);
  if (inside.substr(0, 1) == "?" || inside == word_for(OriginKind::unknown)) return true;
  if (Cursor{inside}.take("≈")) return true;
  Cursor cursor{inside};
  std::string_view last;
  while (!cursor.done()) {
    last = cursor.word();
    cursor.at += last.size();
    cursor.skip_spaces();
  }
  return origin_of(last).has_value();
}

}  // namespace cotter::quantity
