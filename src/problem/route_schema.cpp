// The shape of a route problem; sizes agree with what the engine takes.
#include "problem/route_problem.hpp"

namespace cotter::problem {

namespace {

using document::Field;
using document::SchemaRef;
using Need = Field::Need;

constexpr std::int64_t k_most_tenths = 2'000;
constexpr std::int64_t k_most_number = 10'000'000;
constexpr std::int64_t k_most_steps = 1'000;
constexpr std::int64_t k_most_extra_steps = 100;
constexpr std::int64_t k_most_relief_cost = 10'000;
constexpr std::int64_t k_any = 1'000'000'000'000;

SchemaRef number() {
  return document::integer_schema(0, k_most_number);
}
SchemaRef tenths() {
  return document::integer_schema(1, k_most_tenths);
}
SchemaRef index_or_none() {
  return document::integer_schema(-1, k_most_steps);
}
SchemaRef relief_cost() {
  return document::integer_schema(-1, k_most_relief_cost);
}
SchemaRef name() {
  return document::text_schema(200);
}

SchemaRef position() {
  return document::list_schema(
      document::integer_schema(-geometry::k_most_coordinate_mm, geometry::k_most_coordinate_mm), 3, 3);
}

SchemaRef rules_schema() {
  return document::object_schema(
      "rules",
      {{"packing", document::word_schema({"density", "exact"}), Need::optional,
        "How several lines in one aperture are judged; density when left out."},
       {"pack_permille", document::integer_schema(1, 1000), Need::optional, "Density: share of the area for bodies."},
       {"pull_permille", document::integer_schema(1, 1000), Need::optional,
        "Density: share of the area with the connector that is being pulled."},
       {"per_aperture", number(), Need::required, "Cost of each aperture on a way."},
       {"turn_costs", document::list_schema(number(), 5, 5), Need::required,
        "Cost of a turn up to 30, 60, 90, 120 degrees, and more."},
       {"equal_table", document::list_schema(number(), 7, 7), Need::optional,
        "Density: aperture over diameter for 1 to 7 equal lines, in 1/10000."}});
}

SchemaRef cell_rule_schema() {
  return document::object_schema(
      "cell rule",
      {{"cell", document::integer_schema(0, engine::route::k_most_cells), Need::required, "Position of the cell."},
       {"room", document::integer_schema(0, k_most_tenths), Need::optional,
        "Thickest line that lies clear in it, in 0.1 mm."},
       {"bare_cable", document::boolean_schema(), Need::optional, "Whether a bare moving cable may lie in it."}});
}

SchemaRef apertures_listed() {
  return document::list_schema(document::integer_schema(0, k_most_steps), 0, engine::route::k_most_apertures);
}

SchemaRef aperture_relief_schema() {
  return document::object_schema("relief of an aperture",
                                 {{"extra_steps", document::integer_schema(0, k_most_extra_steps), Need::optional,
                                   "Steps beyond enlarge_max, in 0.1 mm."},
                                  {"extra_cost", relief_cost(), Need::optional, "Cost of each of them."},
                                  {"share_cost", relief_cost(), Need::optional,
                                   "Cost of taking an exclusive aperture for a shared one; -1 = never."}});
}

SchemaRef line_relief_schema() {
  return document::object_schema(
      "relief of a line",
      {{"drop_cost", relief_cost(), Need::optional, "Cost of leaving the line out; -1 = never."},
       {"length_cost", relief_cost(), Need::optional, "Cost of a length that does not suit; -1 = never."}});
}

SchemaRef aperture_schema() {
  return document::object_schema(
      "aperture",
      {{"id", index_or_none(), Need::optional, "Position in the list, from 0."},
       {"name", name(), Need::required, "For the reader of the result."},
       {"a", document::integer_schema(0, engine::route::k_most_cells), Need::required, "Cell on the one side."},
       {"b", document::integer_schema(-1, engine::route::k_most_cells), Need::required,
        "Cell on the other side; -1 = outside."},
       {"kind", document::word_schema({"exclusive", "shared"}), Need::required,
        "Takes one line or device, or several."},
       {"D", tenths(), Need::required, "Clear diameter, or width of a slot, in 0.1 mm."},
       {"length", tenths(), Need::optional, "Clear length of a slot, in 0.1 mm."},
       {"shape", document::word_schema({"slot", "oval"}), Need::optional,
        "slot: two half circles and straight sides (when left out); oval: an ellipse."},
       {"pos", position(), Need::required, "x, y, z in mm."},
       {"enlarge_max", document::integer_schema(0, k_most_steps), Need::optional, "Permitted enlargement, in 0.1 mm."},
       {"enlarge_cost", number(), Need::optional, "Cost of each 0.1 mm."},
       {"taken", document::boolean_schema(), Need::optional, "Something else sits in it: nothing may pass."},
       {"relax", aperture_relief_schema(), Need::optional, "What may give way when relaxed is true."}});
}

SchemaRef seat_schema() {
  return document::object_schema(
      "seat",
      {{"node", document::integer_schema(-1, engine::route::k_most_cells), Need::required, "Cell; -1 = outside."},
       {"pos", position(), Need::required, "x, y, z in mm."},
       {"aperture", index_or_none(), Need::optional, "Aperture that the device uses up; -1 = none."},
       {"place", index_or_none(), Need::optional, "A place takes one device; -1 = none."},
       {"cost", number(), Need::optional, "Cost of this seat."},
       {"entries", apertures_listed(), Need::optional, "Apertures that the device itself is put through."}});
}

SchemaRef end_schema() {
  return document::object_schema(
      "end", {{"device", document::integer_schema(0, k_most_steps), Need::required, "Position in the list of devices."},
              {"c", tenths(), Need::optional, "Diameter of the connector, in 0.1 mm; needed without w and h."},
              {"w", tenths(), Need::optional, "Width of a rectangular connector, in 0.1 mm."},
              {"h", tenths(), Need::optional, "Height of a rectangular connector, in 0.1 mm."}});
}

SchemaRef body_schema() {
  return document::object_schema("body",
                                 {{"c", tenths(), Need::optional, "Diameter, in 0.1 mm; needed without w and h."},
                                  {"w", tenths(), Need::optional, "Width of a rectangular body, in 0.1 mm."},
                                  {"h", tenths(), Need::optional, "Height, in 0.1 mm."}});
}

SchemaRef line_schema() {
  return document::object_schema(
      "line", {{"name", name(), Need::required, "For the reader of the result."},
               {"d", tenths(), Need::required, "Diameter, in 0.1 mm."},
               {"ends", document::list_schema(end_schema(), 2, 2), Need::required, "The two ends."},
               {"lengths", document::list_schema(number(), 0, 200), Need::optional,
                "Offered lengths in mm; none = cut to length."},
               {"cut_max", number(), Need::optional, "Longest piece to cut from, in mm; needed without lengths."},
               {"min_slack", number(), Need::required, "Length wanted over the computed way, in mm."},
               {"max_stow", number(), Need::optional, "Most length that can be stowed, in mm; needed with lengths."},
               {"surface", document::integer_schema(0, k_most_steps), Need::optional,
                "How often the line may come out and go in again between its ends."},
               {"bend_radius", number(), Need::optional, "Least radius of its middle line, in mm; 0 = any."},
               {"bare_cable", document::boolean_schema(), Need::optional, "A moving cable without housing."},
               {"captive_end", document::integer_schema(0, 1), Need::optional,
                "The end that cannot be parted from its device; the other one leads."},
               {"correction", document::integer_schema(-k_most_number, k_most_number), Need::optional,
                "Millimetres that its way was measured longer than its marks say."},
               {"through", apertures_listed(), Need::optional, "Apertures it must pass."},
               {"avoids", apertures_listed(), Need::optional, "Apertures it must not pass."},
               {"relax", line_relief_schema(), Need::optional, "What may give way when relaxed is true."}});
}

}  // namespace

SchemaRef route_schema() {
  const SchemaRef device = document::object_schema(
      "device", {{"name", name(), Need::required, "For the reader of the result."},
                 {"seats", document::list_schema(seat_schema(), 1, engine::route::k_most_seats), Need::required,
                  "Where it can sit; one is chosen."},
                 {"body", body_schema(), Need::optional, "Cross-section of the device, for the entries of its seat."}});
  return document::object_schema(
      "route problem",
      {{"cotter", document::word_schema({"route_problem 1"}), Need::optional, "Format and version."},
       {"name", name(), Need::required, "Name of the instance."},
       {"family", name(), Need::optional, "Handed over by generators; not used."},
       {"source", document::text_schema(), Need::optional, "Where the problem comes from; handed through."},
       {"size", name(), Need::optional, "Not used."},
       {"seed", document::integer_schema(-k_any, k_any), Need::optional, "Not used."},
       {"hole_scale_percent", document::integer_schema(0, k_any), Need::optional, "Not used."},
       {"fault", document::anything_schema(), Need::optional, "Not used."},
       {"relaxed", document::boolean_schema(), Need::optional,
        "For testing solvers: what would have to give way at least, by the fields relax. Never a plan."},
       {"node_limit", document::integer_schema(1, k_any), Need::optional, "Most steps of the search for the proof."},
       {"rules", rules_schema(), Need::required, "Rules and costs."},
       {"cells", document::list_schema(name(), 0, engine::route::k_most_cells), Need::required, "Hollow stretches."},
       {"cell_rules", document::list_schema(cell_rule_schema(), 0, engine::route::k_most_cells), Need::optional,
        "What a cell asks of the lines in it."},
       {"apertures", document::list_schema(aperture_schema(), 0, engine::route::k_most_apertures), Need::required,
        "Openings and passages."},
       {"devices", document::list_schema(device, 0, k_most_steps), Need::required, "What lines run between."},
       {"lines", document::list_schema(line_schema(), 0, engine::route::k_most_lines), Need::required,
        "What is routed."}});
}

}  // namespace cotter::problem
