#include <algorithm>
#include <iso286_deviations.hpp>
#include <iso286_grades.hpp>
#include <optional>

#include "engine/fit/standards/csv_table.hpp"
#include "engine/fit/standards/limits.hpp"
#include "quantity/text.hpp"

namespace cotter::engine::fit {
namespace {

using quantity::Interval;
using quantity::Length;
template <class T>
using Looked = tl::expected<T, ClassError>;

constexpr int k_finest_grade = 5;
constexpr int k_coarsest_grade = 11;
constexpr std::string_view k_source = "ISO 286-1 and ISO 286-2, through the copies named in catalog/standards";
constexpr std::string_view k_accepted =
    "a letter d e f g h js k m n p r s (small for shafts, capital for holes) and a grade 5 to 11, for example H7";

const CsvTable& grades() {
  static const CsvTable table(k_iso286_grades);
  return table;
}

const CsvTable& deviations() {
  static const CsvTable table(k_iso286_deviations);
  return table;
}

struct ClassName {
  std::string letter;  ///< small, for holes too
  bool hole = false;
  int grade = 0;
};

std::optional<ClassName> read_class(std::string_view text) {
  constexpr std::string_view k_small = "abcdefghijklmnopqrstuvwxyz";
  constexpr std::string_view k_capital = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
  ClassName name;
  const std::size_t letters = text.find_first_of("0123456789");
  if (letters == 0 || letters == std::string_view::npos) return std::nullopt;
  name.hole = k_capital.find(text.front()) != std::string_view::npos;
  for (const char letter : text.substr(0, letters)) {
    const std::size_t index = (name.hole ? k_capital : k_small).find(letter);
    if (index == std::string_view::npos) return std::nullopt;
    name.letter += k_small[index];
  }
  const bool known =
      name.letter == "h" || name.letter == "js" || (name.letter.size() == 1 && deviations().has_column(name.letter));
  for (int grade = k_finest_grade; grade <= k_coarsest_grade; ++grade)
    if (text.substr(letters) == std::to_string(grade)) name.grade = grade;
  if (!known || name.grade == 0) return std::nullopt;
  return name;
}

Looked<Length> look_up(const CsvTable& table, const std::string& column, Length nominal, std::string_view label) {
  const auto row = table.row_for(nominal);
  const auto value = row && table.has_column(column) ? table.micrometres(*row, column) : std::nullopt;
  if (value) return *value;
  const std::string size = quantity::print_amount(nominal.base(), quantity::Dimension::length);
  return tl::unexpected(ClassError{ClassError::Code::no_row, std::string(label), column + " at " + size,
                                   "a size and class with a sourced row, or the deviations written out"});
}

Looked<Length> grade_width(int grade, Length nominal) {
  return look_up(grades(), "IT" + std::to_string(grade), nominal, "ISO 286 grades");
}

Looked<Length> fundamental(const ClassName& name, Length nominal) {
  constexpr int k_coarsest_with_k = 7;
  if (name.letter == "h") return Length{};
  if (name.letter == "k" && !name.hole && name.grade > k_coarsest_with_k) return Length{};
  return look_up(deviations(), name.letter, nominal, "ISO 286 fundamental deviations");
}

bool lies_below_zero_line(const ClassName& shaft) {
  return std::string_view("defgh").find(shaft.letter) != std::string_view::npos;
}

/// Upper deviation of a hole K to S.
Looked<Length> upper_of_hole(const ClassName& name, Length width, Length nominal) {
  const bool transition = name.letter == "k" || name.letter == "m" || name.letter == "n";
  const int coarsest_with_delta = transition ? 8 : 7;
  if (name.grade > coarsest_with_delta && name.letter == "n") return Length{};
  if (name.grade > coarsest_with_delta && name.letter == "k")
    return tl::unexpected(ClassError{ClassError::Code::no_row, "ISO 286 fundamental deviations",
                                     "K" + std::to_string(name.grade), "K5 to K8"});
  const auto shaft = fundamental(name, nominal);
  if (!shaft || name.grade > coarsest_with_delta) return shaft.map([](Length value) { return -value; });
  const auto finer = grade_width(name.grade - 1, nominal);
  if (!finer) return finer;
  return width - *finer - *shaft;
}

Looked<Interval<Length>> deviations_of(const ClassName& name, Length nominal) {
  const auto width = grade_width(name.grade, nominal);
  if (!width) return tl::unexpected(width.error());
  if (name.letter == "js") {
    const Length half = quantity::nanometres(width->base() / 2);
    return Interval<Length>(-half, half);
  }
  const bool below = lies_below_zero_line(name);
  if (name.hole && !below) {
    const auto upper = upper_of_hole(name, *width, nominal);
    return upper.map([&](Length value) { return Interval<Length>(value - *width, value); });
  }
  const auto own = fundamental(name, nominal);
  if (!own) return tl::unexpected(own.error());
  if (name.hole) return Interval<Length>(-*own, -*own + *width);
  return below ? Interval<Length>(*own - *width, *own) : Interval<Length>(*own, *own + *width);
}

}  // namespace

Interval<Length> limits_of_size(Length nominal, const ClassLimits& limits) {
  return Interval<Length>(nominal) + limits.deviations;
}

tl::expected<ClassLimits, ClassError> iso286_limits(Length nominal, std::string_view tolerance_class) {
  const auto name = read_class(tolerance_class);
  if (!name)
    return tl::unexpected(
        ClassError{ClassError::Code::bad_class, "ISO 286", std::string(tolerance_class), std::string(k_accepted)});
  return deviations_of(*name, nominal).map([](const Interval<Length>& found) {
    return ClassLimits{found, std::string(k_source)};
  });
}

}  // namespace cotter::engine::fit
