#include "document/schemas.hpp"
#include "document/schemas_fields.hpp"

namespace cotter::document {
namespace {

constexpr std::int64_t k_most_millimetres = 10'000;
constexpr std::int64_t k_most_pieces = 1'000'000;

SchemaRef filled_place_schema() {
  const SchemaRef filled = object_schema(
      "filled_place",
      {
          optional("part", identifier_schema(), "Part that fills it; left out, the place is open."),
          optional("is", identifier_schema(), "Place of the template, when the job uses a name of its own."),
          optional("at_hand", boolean_schema(), "Already at hand or ordered."),
          optional("another", boolean_schema(), "A further piece of a part that fills another place too."),
          optional("used", boolean_schema(), "This very piece is used, whatever the part's entry says."),
          optional("condition", condition_schema(), "Inspection of this very piece; it makes the piece a used one."),
          optional("values", anything_schema(), "`interface.dimension`: value that replaces the part's own."),
          optional("seat", identifier_schema(), "The seat it must sit on, where the template offers several."),
      });
  return either_schema({identifier_schema(), filled});
}

SchemaRef measured_way_schema() {
  return object_schema("measured_way", {
                                           needed("way", integer_schema(1, k_most_millimetres), "Millimetres."),
                                           needed("by", label_schema()),
                                           needed("on", short_text_schema()),
                                       });
}

SchemaRef wish_schema() {
  return object_schema(
      "line_wish", {
                       needed("id", identifier_schema()),
                       optional("part", identifier_schema(), "Left out for a lead of the device at `from`."),
                       needed("from", short_text_schema(), "`place.port`."),
                       needed("to", short_text_schema(), "`place.port`."),
                       optional("slack", integer_schema(0, k_most_millimetres), "Millimetres that must be over."),
                       optional("stow", integer_schema(0, k_most_millimetres), "Millimetres that can be stowed."),
                       optional("surfaces", integer_schema(0, 20), "How often it may come out and go in again."),
                       optional("through", list_schema(short_text_schema(), 1, 20), "`place.opening`s it must pass."),
                       optional("avoid", list_schema(short_text_schema(), 1, 20), "`place.opening`s it must not."),
                       optional("measured", measured_way_schema(), "With a string or liner in the frame."),
                   });
}

SchemaRef taken_schema() {
  return object_schema("taken", {needed("opening", short_text_schema(), "`place.opening`."),
                                 needed("by", label_schema(), "What sits in it.")});
}

SchemaRef hands_schema() {
  return object_schema("hands",
                       {needed("left", word_schema({"front", "rear"}), "The brake of the left hand."),
                        needed("by", label_schema(), "Who has asked the rider."), needed("on", short_text_schema())});
}

SchemaRef decision_schema() {
  return object_schema("decision", {
                                       needed("finding", text_schema(400)),
                                       needed("by", label_schema()),
                                       needed("on", short_text_schema()),
                                       needed("reason", text_schema()),
                                       optional("margin", short_text_schema(), "Margin when it was accepted."),
                                       optional("passes", word_schema({"below", "above"}),
                                                "Which end of a limit it passes; left out, none."),
                                   });
}

SchemaRef paper_schema() {
  const SchemaRef signature = object_schema(
      "paper_signature",
      {needed("by", label_schema(), "Who has read the paper and answers for it."), needed("on", short_text_schema())});
  return object_schema("paper", {
                                    needed("id", identifier_schema()),
                                    needed("finding", text_schema(400), "Whose limit it sets."),
                                    needed("part", identifier_schema(), "Part it is for."),
                                    needed("written_by", label_schema(), "The maker, described."),
                                    needed("document", label_schema(), "Title."),
                                    needed("page", short_text_schema()),
                                    needed("on", short_text_schema(), "Date of the document."),
                                    needed("limit", window_schema(), "What it allows; an end left out is the rule's."),
                                    needed("signed", signature),
                                });
}

SchemaRef shop_schema() {
  const SchemaRef tool = object_schema("tool", {
                                                   needed("id", identifier_schema()),
                                                   needed("label", label_schema()),
                                                   needed("kind", identifier_schema(), "What it is for."),
                                                   optional("resolution", short_text_schema()),
                                               });
  const SchemaRef piece = object_schema("kit_piece", {
                                                         needed("id", identifier_schema()),
                                                         needed("label", label_schema()),
                                                         needed("piece", identifier_schema(), "Kind of piece."),
                                                         needed("thickness", length_schema()),
                                                         needed("count", integer_schema(0, k_most_pieces)),
                                                         optional("bore", length_schema(), "Of its hole."),
                                                     });
  return object_schema("shop", {
                                   needed("name", label_schema()),
                                   optional("country", short_text_schema()),
                                   optional("rate", short_text_schema(), "Money an hour: `62.00 EUR`."),
                                   optional("tools", list_schema(tool)),
                                   optional("kit", list_schema(piece)),
                               });
}

}  // namespace

SchemaRef job_schema() {
  static const SchemaRef schema =
      object_schema("job", {
                               header_field(),
                               needed("id", identifier_schema()),
                               needed("title", label_schema()),
                               optional("note", text_schema()),
                               needed("bicycle", identifier_schema(), "Template."),
                               optional("revision", short_text_schema()),
                               optional("parts", list_schema(part_schema())),
                               needed("places", map_schema(filled_place_schema())),
                               optional("joints", list_schema(joint_schema()), "Beyond those of the template."),
                               optional("lines", list_schema(wish_schema())),
                               optional("taken", list_schema(taken_schema()), "Openings that something else sits in."),
                               optional("hands", hands_schema(), "Which hand works which brake."),
                               optional("aliases", map_schema(identifier_schema()), "Old name: name now."),
                               optional("decisions", list_schema(decision_schema())),
                               optional("papers", list_schema(paper_schema()), "Makers' papers that set a limit."),
                               optional("shop", shop_schema()),
                           });
  return schema;
}

SchemaRef journal_entry_schema() {
  static const SchemaRef schema = object_schema(
      "journal_entry",
      {
          needed("id", short_text_schema(), "Made by the sender."),
          needed("revision", integer_schema(0, 1'000'000'000)),
          needed("kind", word_schema({"value", "sign_off", "fact", "undo", "accept"})),
          needed("by", label_schema()),
          needed("when", short_text_schema()),
          needed("target", text_schema(400)),
          optional("value", anything_schema(), "Written value; with kind `value`."),
          optional("passes", word_schema({"below", "above"}), "With kind `accept`: which end of a limit it passes."),
          optional("note", text_schema(), "With kind `accept`: the reason."),
      });
  return schema;
}

}  // namespace cotter::document
