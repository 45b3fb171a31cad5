#include <iso492_normal.hpp>

#include "engine/fit/standards/csv_table.hpp"
#include "engine/fit/standards/limits.hpp"
#include "quantity/text.hpp"

namespace cotter::engine::fit {
namespace {

using quantity::Length;

constexpr std::string_view k_source = "ISO 492, Normal class, through a bearing maker's fit tables";

const CsvTable& normal_class() {
  static const CsvTable table(k_iso492_normal);
  return table;
}

tl::expected<ClassLimits, ClassError> look_up(std::string_view feature, Length nominal) {
  const CsvTable& table = normal_class();
  for (std::size_t row = 0; row < table.rows(); ++row) {
    if (table.cell(row, "feature") != feature) continue;
    if (nominal <= *table.millimetres(row, "over_mm") || *table.millimetres(row, "to_mm") < nominal) continue;
    return ClassLimits{{*table.micrometres(row, "lower_um"), *table.micrometres(row, "upper_um")},
                       std::string(k_source)};
  }
  const std::string size = quantity::print_amount(nominal.base(), quantity::Dimension::length);
  return tl::unexpected(ClassError{ClassError::Code::no_row, "ISO 492 Normal class",
                                   std::string(feature) + " of " + size,
                                   "a bearing whose size has a sourced row, or the deviations written out"});
}

}  // namespace

tl::expected<ClassLimits, ClassError> iso492_outer(Length nominal) {
  return look_up("outer", nominal);
}

tl::expected<ClassLimits, ClassError> iso492_bore(Length nominal) {
  return look_up("bore", nominal);
}

}  // namespace cotter::engine::fit
