#pragma once
// A bicycle template: which places exist, which joints connect them, which dimensions make up a stack. All data.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "model/kind.hpp"
#include "model/names.hpp"
#include "model/part.hpp"

namespace cotter::model {

struct PlaceForm {
  std::string id;
  std::string label;
  bool optional = false;      ///< may stay empty in a finished bicycle
  std::string decide_before;  ///< id of the operation that first needs the choice, empty when unknown
  std::string unchecked;      ///< why no joint or stack of the template judges what is here; empty: some do
};

/// Facts on what fills the places that must all hold: `kind:crankset.preload=wave_washer`; `!` in front negates.
using Conditions = std::vector<std::string>;

struct JointForm {
  std::string id;
  std::string label;
  InterfaceRef a, b;
  /// `shell_lines`: asks nothing when no line passes the shell; `stated`: nothing while neither side states its
  /// feature; `needed`: likewise, and while `a` states its own, the optional place of `b` may not stay empty; empty:
  /// always asks.
  std::string only_with;
  Conditions when;        ///< there is such a joint only when these hold
  std::int64_t late = 0;  ///< hundredths of a minute lost when it turns out wrong at the bench; 0: nobody says
  std::string spoils;     ///< place whose part is lost with it, or empty
};

/// A feature that the part in a place must state, because it decides which joints and stacks there are.
struct FeatureForm {
  std::string id;
  std::string label;  ///< "how the play of the crank is set"
  InterfaceRef feature;
  std::vector<std::string> kinds;  ///< what it can be
  Guards guards = Guards::nothing;
};

/// Two ports that a line of the job must join: which lever works which brake is part of the template.
struct ConnectionForm {
  std::string id;
  std::string label;
  InterfaceRef a, b;  ///< place and port
  Guards guards = Guards::nothing;
  Conditions when;
};

/// A signed length of a stack: a dimension of a part times a small whole number, or a fixed value.
struct StackTerm {
  std::string id;
  std::string label;
  ValueRef value;
  std::optional<quantity::Value> fixed;
};

/// Where loose pieces may be put.
struct StackSlot {
  std::string id;
  std::string label;  ///< "on the spindle, right of the right bearing"
  std::string piece;  ///< kind of kit piece that fits there
  std::int64_t most_pieces = 0;
  std::optional<ValueRef> round{};  ///< what the piece goes round: its hole must pass over this diameter
  Conditions when{};                ///< there is such a slot only when these hold
};

/// A linear form over terms and slots: a gap with its window, or a length to report.
struct StackForm {
  std::string id;
  std::string label;
  std::map<std::string, int> terms;
  std::map<std::string, int> slots;
  bool halved = false;                         ///< the sum is divided by two
  std::optional<ValueRef> must_from, must_to;  ///< window limits taken from a part
  Window must, should;                         ///< or written here
  std::optional<quantity::Value> target;       ///< closest is best: chainline
  std::optional<ValueRef> target_from;         ///< or as a part states it
  Outcome below, above;
  Guards guards = Guards::nothing;
  MayPass may_pass = MayPass::mechanic;
  Source source;
  bool cut = false;       ///< this length is sawn: hold point, two measurements
  Conditions when;        ///< there is such a form only when these hold
  std::int64_t late = 0;  ///< hundredths of a minute lost when it turns out wrong at the bench; 0: nobody says
  std::string spoils;     ///< place whose part is lost with it, or empty
};

struct StackDefinition {
  std::string id;
  std::string label;
  std::vector<StackTerm> terms;
  std::vector<StackSlot> slots;
  std::vector<StackForm> forms;
  Conditions when;  ///< there is such a stack only when these hold
};

/// Where the device in a place can sit, for routing. A position is a named point of the skeleton plus an offset in
/// whole millimetres (x forward, y up, z to the rider's right).
struct Seat {
  std::string id;  ///< by which a job can choose it; empty when the place has only one
  std::string place;
  std::string cell;  ///< `place.cell`, or `outside`
  std::string point;
  std::int64_t x = 0, y = 0, z = 0;
  std::string opening;               ///< `place.opening` that the device uses up, or empty
  std::vector<std::string> entries;  ///< `place.opening`s that the device is put through, from the outside
  std::int64_t cost = 0;
};

/// A shaft that stands in a cell: lines lie beside it with this room at most, and no moving cable without housing.
struct Clearance {
  std::string id;
  std::string cell;      ///< `place.cell`
  ValueRef inside;       ///< clear diameter of the cell there
  ValueRef shaft;        ///< largest diameter of what stands or turns in it
  quantity::Value keep;  ///< of that room, taken by a sleeve and by the air a line must keep
  Conditions when;
};

struct Bicycle {
  std::string id;
  std::string label;
  std::vector<PlaceForm> places;
  std::vector<FeatureForm> features;
  std::vector<JointForm> joints;
  std::vector<ConnectionForm> connections;
  std::vector<StackDefinition> stacks;
  std::vector<Clearance> clearances;
  std::vector<Seat> seats;
  std::vector<Passage> passages;  ///< between cells of different places
};

}  // namespace cotter::model
