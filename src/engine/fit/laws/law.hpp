#pragma once
// The laws by which two interfaces mate, as data: which operands a law takes, the number it yields, and what it demands
// besides. Every law is whole-number linear, so that one solver judges all of them exactly. Formulas: docs/fit.md.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "quantity/value.hpp"

namespace cotter::engine::fit {

enum class Law {
  bore_on_shaft,
  difference,
  at_most,
  at_least,
  range_contains,
  thread,
  equal_pattern,
  equal_family,
  engagement,
  radial_room,
  equal_angle,
  overlap
};

std::string_view word_for(Law law);
std::optional<Law> law_from_word(std::string_view word);

/// Which end of a window: too small a number, or too large a one.
enum class Edge { none, from, to };

struct RoleSpec {
  std::string_view name;
  std::optional<quantity::Dimension> dimension;  ///< none: any, but the same for all such roles of one check
};

/// (sum of factor * operand + constant) / divisor. Factors stand in the order of the law's roles.
struct Form {
  std::vector<std::int64_t> factors;
  std::int64_t constant = 0;
  std::int64_t divisor = 1;
};

/// A form that must be at least 0, whatever window the check has.
struct Demand {
  Form form;
  Edge edge = Edge::none;                   ///< end of the number's window that it stands for
  std::optional<std::size_t> multiplied{};  ///< role whose factor is multiplied by the law's parameter
};

/// Two operands that must be the same within `tolerance`, listed as a mismatch when they cannot be.
struct Equality {
  std::string_view name;
  std::size_t own;    ///< index of the role
  std::size_t other;  ///< index of the role
  std::int64_t tolerance = 0;
};

/// What is taken where a check gives no window.
enum class Unwindowed {
  free,           ///< no demand on the number
  at_least_zero,  ///< no lower end given: 0
  zero            ///< no end given: exactly 0
};

struct WordSpec {
  std::string_view name;
  bool required = false;
};

struct LawSpec {
  Law law;
  std::string_view word;
  std::string_view formula;  ///< in the names of the roles
  std::vector<RoleSpec> roles{};
  std::vector<Form> number{};  ///< the least of these; none: the law compares words only
  Unwindowed unwindowed = Unwindowed::free;
  std::vector<Demand> demands{};
  std::vector<Equality> equalities{};
  std::vector<WordSpec> words{};
  std::string_view parameter{};  ///< name of the whole number that the law needs, or empty
};

const LawSpec& law_spec(Law law);
/// In the order of the enumeration.
const std::vector<LawSpec>& all_laws();

/// Index of a role, or nothing.
std::optional<std::size_t> role_index(const LawSpec& spec, std::string_view role);

}  // namespace cotter::engine::fit
