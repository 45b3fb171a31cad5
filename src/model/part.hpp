#pragma once
// A part: mating features with their dimensions, mass and price; some parts also have tubes, ports, or are a line.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "model/condition.hpp"
#include "quantity/value.hpp"

namespace cotter::model {

/// Money in hundredths of a currency unit.
struct Price {
  std::int64_t hundredths = 0;
  std::string currency;
};

struct Interface {
  std::string id;
  std::string kind;
  std::map<std::string, quantity::Value> values;
  std::map<std::string, std::string> words;
};

/// Clear shape of an opening or passage, or the cross-section of what is pulled through one. Both sizes are equal when
/// it is round.
struct ClearShape {
  enum class Outline {
    round,
    slot,  ///< straight sides and round ends; a plug: a rectangle
    oval,  ///< an ellipse
  };
  quantity::Value width;
  quantity::Value length;
  Outline outline = Outline::round;

  bool round() const { return outline == Outline::round; }
};

/// A hollow stretch in which a line can lie.
struct Cell {
  std::string id;
  std::string tube;  ///< name of the tube axis in the frame's skeleton
  quantity::Value outer_diameter;
  quantity::Value bore;
};

/// A hole from a cell to the outside.
struct Opening {
  std::string id;
  std::string label;
  std::string cell;
  std::string from;          ///< end of the tube the distance is taken from: `start` or `end`
  quantity::Value distance;  ///< along the tube from that end to the middle of the hole
  std::string side;          ///< left, right, top, bottom, front, back, end
  ClearShape shape;
  bool shared = false;                 ///< several lines may use it
  std::int64_t enlarge_most = 0;       ///< nanometres permitted by the maker's paper
  std::string enlarge_paper;           ///< that paper; empty = nothing is permitted
  std::string insert;                  ///< what is fitted in it: grommet, stop, cover
  std::vector<quantity::Value> holds;  ///< bores of that insert, one for each line it takes; empty: nobody says
  std::string thread;                  ///< of a threaded opening: "M5 x 0.8"; empty: none
};

/// A hole between two cells.
struct Passage {
  std::string id;
  std::string label;
  std::string a, b;  ///< `cell` of the same part, or `place.cell` of another
  std::string tube;  ///< cell on whose axis the place is given
  std::string from;
  quantity::Value distance;
  ClearShape shape;
  bool shared = true;
};

/// A pivot of a sprung frame: what turns about it between the two ends of the travel.
struct Pivot {
  std::string id;
  std::string label;
  std::vector<std::string> cells;   ///< of the part, that turn
  std::vector<std::string> points;  ///< named points of the skeleton that turn; what sits by them turns along
  quantity::Value x, y;             ///< its axis in the skeleton's frame
  quantity::Value from, to;         ///< ends of the travel; 0 = as drawn, positive: what lies behind the pivot rises
};

/// What a part is as a line: one wire, hose, or housing.
struct LineForm {
  enum class Kind { wire, hose, housing };
  Kind kind = Kind::wire;
  quantity::Value diameter;
  std::string family_a, family_b;        ///< what each end plugs into
  ClearShape connector_a, connector_b;   ///< cross-section that must pass while pulling
  std::vector<quantity::Value> lengths;  ///< offered lengths; empty: cut to length
  quantity::Value longest;               ///< cut to length: longest that can be had
  quantity::Value bend_radius;
  bool bare = false;  ///< a moving cable that runs without housing inside the frame
};

/// Where a line ends on a device.
struct Port {
  std::string id;
  std::string family;            ///< plug family or fluid joint; both ends of a line must be of the port's family
  std::optional<LineForm> lead;  ///< a line that cannot be parted from the device: its end a is the captive one
};

/// What a part does as a device in the network of lines.
struct Device {
  std::vector<Port> ports;
  std::optional<ClearShape> body;  ///< cross-section that must pass when it is put into the frame
};

/// Two features of one part that it joins by itself: what mates with the one is carried over to the other.
struct Join {
  std::string a, b;
};

struct Part {
  std::string id;
  std::string label;
  std::string family;
  Material material = Material::unknown;
  std::optional<quantity::Value> mass;
  std::optional<Price> price;
  bool used = false;
  std::optional<Condition> condition{};  ///< of a used part; empty: nobody has inspected it
  std::string paper;                     ///< the paper its values come from, empty when there is none
  std::map<std::string, Interface> interfaces;
  std::map<std::string, quantity::Value> geometry;  ///< named numbers the skeleton is drawn from
  std::vector<Cell> cells;
  std::vector<Opening> openings;
  std::vector<Passage> passages;
  std::vector<Pivot> pivots;
  std::optional<Device> device;
  std::optional<LineForm> line;
  std::vector<Join> joins;  ///< an adapter, sleeve or spacer: interfaces it stands between; empty: it bridges nothing
};

}  // namespace cotter::model
