#pragma once
// Everything that is not this job: interface kinds, parts, templates, operations.

#include <map>
#include <string>
#include <vector>

#include "model/bicycle.hpp"
#include "model/kind.hpp"
#include "model/operation.hpp"
#include "model/part.hpp"

namespace cotter::model {

/// Which hand works the front brake by the custom of some countries. It is asked and confirmed, never assumed in
/// silence.
struct BrakeCustom {
  bool left_is_front = true;
  std::vector<std::string> countries;
  Source source;
};

struct Catalog {
  std::map<std::string, InterfaceKind> kinds;
  std::map<std::string, Part> parts;
  std::map<std::string, Bicycle> bicycles;
  OperationCatalog work;
  std::vector<ConditionRule> conditions;
  std::vector<ToolSubstitute> substitutes;
  std::vector<BrakeCustom> brake_customs;
  std::string hash;  ///< SHA-256 over all its files, in order of their names
};

/// The meeting of two kinds and which of them declares it; `own` is the side whose dimensions are `own.` in the rules.
struct MeetingRef {
  const Meeting* meeting = nullptr;
  bool swapped = false;  ///< the second kind declares it
};
/// What a kind is called; its id when the catalog has no such kind.
std::string kind_label(const Catalog& catalog, const std::string& kind);
MeetingRef find_meeting(const Catalog& catalog, const std::string& kind_a, const std::string& kind_b);

}  // namespace cotter::model
