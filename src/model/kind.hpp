#pragma once
// Interface kinds: data that says which dimensions a mating feature has, which kinds it meets, and by which law.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "model/source.hpp"
#include "quantity/value.hpp"

namespace cotter::model {

/// How a dimension is measured at the bench; goes into every `measure` finding.
struct MeasureGuide {
  std::string feature;         ///< what is measured: "bore of the shell, right side"
  std::string faces;           ///< between which two faces or points
  std::string tool;            ///< id of a tool kind, see Shop
  std::string resolution;      ///< resolution needed: "0.01 mm"
  std::int64_t minutes = 500;  ///< hundredths of a minute
};

struct KindDimension {
  std::string id;
  std::string label;
  quantity::Dimension dimension = quantity::Dimension::length;
  quantity::Range permitted;  ///< what this kind can be at all; an unknown value is this whole range
  quantity::Range unstated;   ///< deviations taken where a paper states none
  bool required = true;
  bool thickest_line = false;  ///< not of the part: the outside diameter of the thickest line of the job
  MeasureGuide measure;
};

/// A word-valued property: hand of a thread, family of a plug, fluid.
struct KindWord {
  std::string id;
  std::string label;
  std::vector<std::string> accepted;
  bool required = true;
};

/// An operand of a rule: a dimension of one's own side, of the other side, or a fixed value.
struct OperandRef {
  enum class Side { own, other, fixed };
  Side side = Side::own;
  std::string dimension;
  quantity::Value fixed;
};

/// What a rule says when its number lies outside the window on one side.
struct Outcome {
  enum class Kind { stop, rework, add };
  Kind kind = Kind::stop;
  std::string operation;  ///< rework: id of the permitted operation; add: label of the part that would mend it
  std::string advice;     ///< one sentence in the catalog's language
};

/// What a part of a press fit is made of: the word of an interface of this name, or a material by its name.
struct MaterialRef {
  OperandRef::Side side = OperandRef::Side::fixed;
  std::string name;
};

/// A rule whose bore and shaft are pressed together: what pressure, force and stress follow from besides those two.
/// Goes with the rule's own verdict; see docs/fit.md.
struct PressRule {
  std::map<std::string, OperandRef> operands;  ///< outer, inner (left out: solid), length, most_stress
  MaterialRef hub;
  MaterialRef shaft;
  std::int64_t friction_low = 0;  ///< in millionths
  std::int64_t friction_high = 0;
};

struct Window {
  std::optional<quantity::Value> from;
  std::optional<quantity::Value> to;
};

struct Rule {
  std::string id;                              ///< unique in the catalog; part of every finding's identity
  std::string label;                           ///< "cup in shell"
  std::string law;                             ///< one of the laws of engine/fit
  std::map<std::string, OperandRef> operands;  ///< role of the law -> operand
  std::map<std::string, std::pair<std::string, std::string>> words;  ///< role -> {own word, other word}
  Window must;                                                       ///< outside: `below` or `above`
  Window should;                                                     ///< outside, but within `must`: accept
  Outcome below, above;
  Guards guards = Guards::nothing;
  MayPass may_pass = MayPass::mechanic;
  Source source;
  std::optional<PressRule> press;
};

/// Which kind this one meets, and the rules that judge the pair. Declared on one side only.
struct Meeting {
  std::string kind;
  std::vector<Rule> rules;
};

struct InterfaceKind {
  std::string id;
  std::string label;
  std::string about;
  std::vector<KindDimension> dimensions;
  std::vector<KindWord> words;
  std::vector<std::pair<std::string, std::string>> smaller_than;  ///< {a, b}: a < b, or the part is mis-typed
  std::vector<Meeting> meets;
  std::vector<std::string> on_materials;  ///< words of the materials it can stand on; empty: any
  std::vector<std::string> on_families;   ///< families of the parts it can stand on; empty: any
  bool never_bridged = false;  ///< no adapter may stand here, whatever its sizes: fluids, brake cables, tyre beads
};

const KindDimension* find_dimension(const InterfaceKind& kind, const std::string& id);

}  // namespace cotter::model
