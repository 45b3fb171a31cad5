#pragma once
// The shapes of the model documents (docs/formats.md), for `cotter schema` and for the readers.
//
// A shape says which fields exist and what kind of text each holds. What depends on other entries (a dimension of an
// interface kind, a name of a place) is the readers' part; an interface of one kind has a shape of its own, made from
// the kind's data, so that a new kind needs no new program.

#include <string_view>

#include "document/node.hpp"
#include "document/schema.hpp"
#include "model/kind.hpp"

namespace cotter::document {

SchemaRef kinds_schema();
SchemaRef parts_schema();
SchemaRef bicycle_schema();
SchemaRef section_schema();
SchemaRef operations_schema();
SchemaRef job_schema();
/// What used parts without an inspection are.
SchemaRef conditions_schema();
SchemaRef customs_schema();
/// Tools that read a feature low which asks for another tool.
SchemaRef tools_schema();
/// One line of a journal.
SchemaRef journal_entry_schema();

/// One part, as it stands in `parts` of a catalog file and of a job.
SchemaRef part_schema();
/// Inspection of a used part, in a part and in a place of a job.
SchemaRef condition_schema();
/// Two interfaces that must mate.
SchemaRef joint_schema();
/// A hole between cells, in a part and in a bicycle template.
SchemaRef passage_schema();
/// A length of a rule's window, `{from, to}`; either end may be left out.
SchemaRef window_schema();
/// What a rule says outside its window.
SchemaRef outcome_schema();
SchemaRef source_schema();
/// Words of `guards` and `may_pass`.
SchemaRef guards_schema();
SchemaRef may_pass_schema();

/// A word that nobody knows is written like a value that nobody knows; the model then does not carry it.
constexpr std::string_view k_unknown_word = "?";

/// Whether a dimension that the kind needs must be written.
enum class Completeness { any, needed };
/// The fields of an interface of this kind: `kind`, its dimensions, its words.
SchemaRef interface_fields(const model::InterfaceKind& kind, Completeness completeness);
/// JSON Schema of an interface of this kind.
Node interface_schema(const model::InterfaceKind& kind);

}  // namespace cotter::document
