#pragma once
// Used parts: what an inspection found on this very piece, and which parts nobody trusts without one.

#include <optional>
#include <string>
#include <vector>

#include "model/kind.hpp"
#include "model/source.hpp"
#include "quantity/value.hpp"

namespace cotter::model {

enum class Material { unknown, steel, aluminium, titanium, composite, plastic, other };

/// Something that wears, as it was read on this piece, and how far it may go.
struct Wear {
  std::string id;
  std::string what;                      ///< "wall of the rim, at its thinnest"
  std::optional<quantity::Value> value;  ///< empty: not read yet
  Window limit;
  Source source;  ///< of the limit
};

/// An inspection of a used part.
struct Condition {
  std::string inspected;  ///< how: "bare, in good light, tapped with a coin"
  std::string by;
  std::string on;      ///< ISO 8601
  bool sound = false;  ///< false: damage was found
  std::string found;   ///< in words
  std::vector<Wear> wear;
};

/// What a used part without a record is. The first rule whose family or place, and whose material, are the
/// part's holds.
struct ConditionRule {
  std::string id;
  std::string label;
  std::vector<std::string> families;
  std::vector<std::string> places;  ///< of a template: a part there counts whatever its family is called
  std::vector<Material> materials;  ///< empty: any
  bool stop = true;                 ///< without a record; false: `measure`
  Guards guards = Guards::nothing;
  std::string advice;
  Source source;
};

/// What happens when a tool of this kind reads a feature that asks for another tool.
struct ToolSubstitute {
  std::string tool;           ///< kind of tool that was used
  std::string label;          ///< "caliper jaws"
  std::string instead_of;     ///< kind of tool that the feature's guide asks for
  std::string needed_label;   ///< that tool in words
  quantity::Range reads_low;  ///< the true size is this much above the reading
  Source source;
};

}  // namespace cotter::model
