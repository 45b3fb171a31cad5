#include "problem/fit_read.hpp"

namespace cotter::problem {

document::SchemaRef fit_operand_schema() {
  using Need = document::Field::Need;
  constexpr std::int64_t k_most_count = 1'000'000'000'000'000;
  const auto written = document::text_schema(200);
  const auto number = document::integer_schema(-k_most_count, k_most_count);
  const auto amount = document::either_schema({written, number});
  const auto paper = document::anything_schema();
  const auto map = document::object_schema(
      "operand",
      {{"value", amount, Need::optional, "The value, with one of the papers below."},
       {"measured", paper, Need::optional, "Who measured it, with what, and on which day."},
       {"maker", paper, Need::optional, "The maker's document and the place in it."},
       {"standard", paper, Need::optional, "The standard and its clause."},
       {"assumed", paper, Need::optional, "Why it is assumed."},
       {"nominal", document::value_schema(quantity::Dimension::length), Need::optional, "Nominal size of a class."},
       {"class", document::text_schema(20), Need::optional, "ISO 286 class such as H7, or ISO 965 class such as 6g."},
       {"bearing", document::word_schema({"outer", "bore"}), Need::optional, "Feature of a Normal class bearing."},
       {"thread", document::text_schema(100), Need::optional, "Name of a thread such as M5 or 1.37 in x 24 tpi."},
       {"take", document::word_schema({"major", "pitch", "pitch_diameter", "minor"}), Need::optional,
        "Which size of the thread is meant."},
       {"from", amount, Need::optional, "Least possible amount of an unknown operand."},
       {"to", amount, Need::optional, "Greatest possible amount of an unknown operand."}});
  return document::either_schema({written, number, map});
}

}  // namespace cotter::problem
