#pragma once
// Interface kinds from a checked `interface_kinds` document.

#include <map>
#include <string>
#include <vector>

#include "document/read_spot.hpp"
#include "model/kind.hpp"

namespace cotter::document {

using Kinds = std::map<std::string, model::InterfaceKind>;
/// Where each name of a catalog was first given.
using Names = std::map<std::string, Seen>;

/// Takes a name that must be given once in the whole catalog. **Fails with** `duplicate_id`, naming both places.
void claim(const Spot& id, std::string_view noun, Names& names, Diagnostics& diagnostics);

/// Everything of a kind but the meetings, which need the other kinds.
model::InterfaceKind read_kind(const Spot& spot, Diagnostics& diagnostics);

/// What the rules of the whole catalog share.
struct RuleNames {
  Names ids;                            ///< where each id was first given
  std::vector<std::string> operations;  ///< that a `rework` may name
};

/// The meetings of a kind.
///
/// **Fails with** `unknown_name` for a kind, dimension or word that does not exist, `duplicate_id` for a rule,
/// `bad_value` for a window of another dimension than its operands.
std::vector<model::Meeting> read_meetings(const Spot& spot, const model::InterfaceKind& own, const Kinds& kinds,
                                          RuleNames& names, Diagnostics& diagnostics);

std::vector<std::string> dimension_names(const model::InterfaceKind& kind);
std::vector<std::string> word_names(const model::InterfaceKind& kind);
/// The keys of a map, for "did you mean".
template <class T>
std::vector<std::string> names_of(const std::map<std::string, T>& map) {
  std::vector<std::string> names;
  for (const auto& [name, value] : map) names.push_back(name);
  return names;
}

}  // namespace cotter::document
