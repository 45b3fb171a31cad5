// Shape of a bridge problem.
#include "engine/fit/laws/law.hpp"
#include "problem/bridge_problem.hpp"

namespace cotter::problem {
namespace {

using document::Field;
using document::SchemaRef;
using Need = Field::Need;

constexpr std::size_t k_most_entries = 10'000;

SchemaRef kind_schema() {
  const SchemaRef is =
      document::word_schema({"length", "angle", "torque", "force", "mass", "pressure", "duration", "count"});
  return document::object_schema(
      "bridge kind",
      {{"id", document::identifier_schema(), Need::required, "Name of the kind, once in the problem."},
       {"dimensions", document::map_schema(is, 60), Need::optional, "Dimension: what it is measured in."},
       {"words", document::list_schema(document::identifier_schema(), 0, 30), Need::optional, "Names of its words."}});
}

SchemaRef rule_schema() {
  std::vector<std::string> laws;
  for (const engine::fit::LawSpec& spec : engine::fit::all_laws()) laws.emplace_back(spec.word);
  const SchemaRef short_text = document::text_schema(200);
  const SchemaRef window = document::object_schema("window", {{"from", short_text, Need::optional, "Least amount."},
                                                              {"to", short_text, Need::optional, "Greatest amount."}});
  return document::object_schema(
      "bridge rule",
      {{"law", document::word_schema(laws), Need::required, "The law that is held against the two features."},
       {"operands", document::map_schema(short_text, 20), Need::optional,
        "Role of the law: `own.` or `other.` with a dimension, or a written value."},
       {"words", document::map_schema(document::list_schema(short_text, 2, 2), 20), Need::optional,
        "Role: word of the own kind, word of the other kind."},
       {"must", window, Need::optional, "Where the law's number must lie."}});
}

SchemaRef meeting_schema() {
  return document::object_schema(
      "bridge meeting", {{"own", document::identifier_schema(), Need::required, "Kind that the rules call own."},
                         {"other", document::identifier_schema(), Need::required, "Kind that it meets."},
                         {"rules", document::list_schema(rule_schema(), 0, 30), Need::required, "All must hold."}});
}

SchemaRef feature_schema() {
  return document::map_schema(document::text_schema(200), 100);
}

SchemaRef piece_schema() {
  const SchemaRef pair = document::list_schema(document::identifier_schema(), 2, 2);
  return document::object_schema(
      "bridge piece",
      {{"id", document::identifier_schema(), Need::required, "Name of the piece, once in the problem."},
       {"cost", document::integer_schema(0, engine::fit::bridge::k_most_cost), Need::required,
        "What it costs, in whole hundredths of whatever is counted."},
       {"features", document::map_schema(feature_schema(), 100), Need::required,
        "Feature: its kind, its dimensions and its words; what is left out is not known."},
       {"joins", document::list_schema(pair, 1, 100), Need::required, "Pairs of features that it stands between."}});
}

}  // namespace

SchemaRef bridge_schema() {
  return document::object_schema(
      "bridge problem",
      {{"cotter", document::word_schema({"bridge_problem 1"}), Need::required, "Format and version."},
       {"kinds", document::list_schema(kind_schema(), 1, 500), Need::required, "Kinds of features."},
       {"meetings", document::list_schema(meeting_schema(), 0, k_most_entries), Need::required, "Which kinds meet."},
       {"pieces", document::list_schema(piece_schema(), 0, k_most_entries), Need::required, "What may be used."},
       {"start", feature_schema(), Need::required, "Feature at one end."},
       {"goal", feature_schema(), Need::required, "Feature at the other end."},
       {"forbidden", document::list_schema(document::identifier_schema()), Need::optional, "Pieces not to be used."},
       {"most_pieces", document::integer_schema(1, engine::fit::bridge::k_most_pieces), Need::optional,
        "Most pieces in a chain; 4 when left out."},
       {"proposals", document::integer_schema(1, 100), Need::optional, "How many chains to name; 1 when left out."},
       {"node_limit", document::integer_schema(1, 10'000'000), Need::optional,
        "Part chains after which the search gives up."}});
}

}  // namespace cotter::problem
