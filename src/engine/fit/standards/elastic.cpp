#include "engine/fit/standards/elastic.hpp"

#include <elastic.hpp>

#include "engine/fit/standards/csv_table.hpp"

namespace cotter::engine::fit {
namespace {

using quantity::Mixed;

const CsvTable& constants() {
  static const CsvTable table(k_elastic);
  return table;
}

/// A cell with a plain number, in millionths.
std::int64_t millionths(std::size_t row, std::string_view column) {
  return constants().millimetres(row, column)->base();
}

}  // namespace

std::optional<Elastic> elastic_constants(std::string_view material) {
  constexpr std::int64_t k_pascals_in_millionth_of_gigapascal = 1'000;
  for (std::size_t row = 0; row < constants().rows(); ++row) {
    if (constants().cell(row, "material") != material) continue;
    const auto modulus = [&](std::string_view column) {
      return Mixed::from_base(millionths(row, column) * k_pascals_in_millionth_of_gigapascal);
    };
    const auto poisson = [&](std::string_view column) { return Mixed::from_base(millionths(row, column)); };
    return Elastic{{modulus("modulus_low_gpa"), modulus("modulus_high_gpa")},
                   {poisson("poisson_low"), poisson("poisson_high")},
                   constants().cell(row, "sure") == "read in source",
                   std::string(constants().cell(row, "source"))};
  }
  return std::nullopt;
}

std::vector<std::string> elastic_materials() {
  std::vector<std::string> names;
  for (std::size_t row = 0; row < constants().rows(); ++row) names.emplace_back(constants().cell(row, "material"));
  return names;
}

}  // namespace cotter::engine::fit
