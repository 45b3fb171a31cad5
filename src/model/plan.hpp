#pragma once
// A plan is a value: it can be saved, compared and drawn, and carries what a drawing needs.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "model/finding.hpp"
#include "model/operation.hpp"
#include "model/part.hpp"

namespace cotter::model {

/// A point in whole micrometres; origin at the centre of the bottom bracket, x forward, y up, z to the rider's right.
struct PlanPoint {
  std::int64_t x = 0, y = 0, z = 0;
};

struct BillRow {
  std::int64_t item = 0;
  std::string place, place_label;
  std::string part, label;
  std::int64_t quantity = 1;
  std::optional<quantity::Value> mass;
  std::optional<Price> price;
  bool to_order = false;
  bool open = false;
};

/// One hole a line passes, in the order from the `from` end.
struct RunStep {
  std::string opening;  ///< `place.opening` or `place.passage`
  std::string letter;   ///< letter on the drawing, empty for an inner passage
  std::string label;
  std::int64_t depth = 0;  ///< millimetres along the line from the leading end
};

struct Run {
  std::string line;
  std::string number;  ///< L1, L2, ...
  std::string label;
  LineForm::Kind kind = LineForm::Kind::wire;
  std::string from, to;  ///< labels of the devices
  std::vector<RunStep> steps;
  std::int64_t way = 0;     ///< computed way, millimetres, good to ±20
  std::int64_t length = 0;  ///< length to choose or to start with, millimetres
  bool cut_to_length = false;
  std::string leading_end;  ///< label of the end that is pulled through first
  std::vector<PlanPoint> path;
  std::vector<bool> inside;  ///< one for each segment of `path`
};

/// A needed order of two pulls and the opening that needs it.
struct PullOrder {
  std::string first, then;  ///< line numbers
  std::string because;      ///< opening label
};

struct OpeningUse {
  std::string opening, letter, label;
  std::vector<std::string> lines;
  std::string device;  ///< label of the device mounted in it, or empty
  std::int64_t fill_permille = 0;
  ClearShape shape;
  PlanPoint at;
  std::string side;  ///< left, right, top, bottom, front, back
};

struct WorkStep {
  std::string mark;  ///< on the papers: two digits in order
  std::string operation;
  std::string label;
  std::vector<std::string> after;  ///< operations it waits for
  std::vector<std::string> opens, closes;
  std::vector<std::string> tools;
  std::string position;
  std::int64_t minutes = 0;
  Reversible reversible = Reversible::yes;
  bool hold_point = false;
  std::string evidence, check, caution;
  std::string phase;
};

/// An open place and the last step before which the choice must be made.
struct OpenChoice {
  std::string place, label;
  std::string before_mark, before_label;
};

/// A value worth measuring, with what it is worth (docs/measure.md).
struct NextMeasurement {
  ValueRef ref;
  std::string label;
  MeasureGuide guide;
  std::string tool_label;             ///< the shop's tool with its resolution; empty: none owned
  std::string tool_resolution;        ///< of the shop's tool
  double chance = 0;                  ///< that it changes a verdict or a choice of pieces, 0 to 1
  double cost = 0;                    ///< minutes that a wrong choice costs, when it does
  double rank = 0;                    ///< chance x cost / minutes of the measurement
  std::vector<std::string> findings;  ///< ids of the open findings that it bears on
};

/// A place with a part of which no joint and no length was judged.
struct UncheckedPlace {
  std::string place, label;
  std::string part_label;
  std::string reason;  ///< of the template; empty: it gives none
};

/// A length to be sawn.
struct Cut {
  std::string id, label;
  quantity::Range length;  ///< nanometres; nothing while not settled
  bool settled = false;    ///< false: rests on something unmeasured or undecided; no paper may print the length
  std::string finding;     ///< id of the finding that shows the working
  std::string source;
};

/// A part outline or axis the drawing is made of.
struct Shape {
  enum class Kind { tube, circle, axis, point };
  Kind kind = Kind::tube;
  std::string id;                 ///< `frame.down_tube`
  std::vector<PlanPoint> points;  ///< tube and axis: start and end; circle: centre
  std::int64_t diameter = 0;      ///< micrometres; tube: outer diameter at the start; circle: diameter
  std::int64_t diameter_end = 0;
};

/// A dimension line of the drawing: the value it was drawn from and the two points it spans.
struct DrawnDimension {
  std::string id;  ///< `frame.geometry.stack`
  std::string label;
  quantity::Value value;
  PlanPoint a, b;
  bool derived = false;
};

struct Picture {
  std::vector<Shape> shapes;
  std::vector<DrawnDimension> dimensions;
  std::map<std::string, PlanPoint> anchors;  ///< place, or `place.interface` -> where its balloon points
};

struct Plan {
  std::string program_version;
  std::string job_hash, catalog_hash;
  std::string job, title, note, revision;
  std::string bicycle_label;
  std::vector<Finding> findings;  ///< worst first
  std::vector<BillRow> bill;
  std::vector<Run> runs;
  std::vector<PullOrder> pull_order;
  std::vector<OpeningUse> openings;
  std::vector<Cut> cuts;
  std::vector<WorkStep> work;
  std::vector<OpenChoice> choices;
  std::vector<NextMeasurement> measure_next;  ///< best first
  std::vector<UncheckedPlace> unchecked;
  std::int64_t minutes = 0;
  bool left_is_front = true;              ///< which hand works the front brake
  std::optional<std::string> hands_by{};  ///< who has asked the rider, and when; empty: nobody has
  std::string shop, country, currency;
  std::int64_t rate_hundredths = 0;
  Picture picture;
};

/// Findings of one verdict.
std::size_t count(const Plan& plan, Verdict verdict);

}  // namespace cotter::model
