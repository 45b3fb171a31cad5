#pragma once
// Elastic constants by material, from catalog/standards/elastic.csv.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/value.hpp"

namespace cotter::engine::fit {

/// Constants of an isotropic material.
struct Elastic {
  quantity::Range modulus;  ///< Young's modulus in pascals
  quantity::Range poisson;  ///< Poisson's ratio in millionths
  bool attested = true;     ///< false: no source was read, so nothing guarded may rest on it
  std::string source;
};

/// Nothing when the table has no row for the material.
std::optional<Elastic> elastic_constants(std::string_view material);
/// Names of all rows, in the order of the table.
std::vector<std::string> elastic_materials();

}  // namespace cotter::engine::fit
