#pragma once
// Parts from a checked document: of the catalog, or written in a job.

#include <optional>
#include <string>
#include <vector>

#include "document/read_kinds.hpp"
#include "document/read_value.hpp"
#include "model/part.hpp"

namespace cotter::document {

/// `unknown` for a word that names no material.
model::Material material_of(const std::string& word);

/// A part with every value filled, so that no engine meets an unknown one.
///
/// **Inputs** `shop` may be null; its tools give measured values their reading error.
/// **Fails with** diagnostics for whatever does not hold together, see the functions below; the part is then
/// incomplete.
model::Part read_part(const Spot& spot, const Kinds& kinds, const model::Shop* shop, Diagnostics& diagnostics);

/// One interface. **Fails with** `unknown_name` for a kind that does not exist, the schema's diagnostics for fields
/// that the kind does not have, `missing_field` for one it needs, `out_of_range`, and `not_smaller`.
std::optional<model::Interface> read_interface(const SpotEntry& entry, const Kinds& kinds, const ValueContext& context,
                                               Diagnostics& diagnostics);
/// A pair of dimensions that the kind wants in order of size and that is not.
struct SizeFault {
  std::string smaller, larger;  ///< dimensions
  std::string message;
  std::string accepted;
};
std::vector<SizeFault> size_faults(const model::InterfaceKind& kind,
                                   const std::map<std::string, quantity::Value>& values);

/// Cells, openings and passages. **Fails with** `duplicate_id`, `unknown_name` for a cell, `not_smaller` for a bore or
/// a hole wider than its tube, `missing_field` for an enlargement without a paper.
void read_hollows(const Spot& spot, const ValueContext& context, model::Part& part, Diagnostics& diagnostics);
/// A passage; the names of its cells are checked by the caller, who knows them.
model::Passage read_passage(const Spot& spot, const ValueContext& context, Diagnostics& diagnostics);

std::optional<model::Device> read_device(const Spot& spot, const ValueContext& context, Diagnostics& diagnostics);
std::optional<model::LineForm> read_line(const Spot& spot, const ValueContext& context, Diagnostics& diagnostics);

/// Whether a number of a part's geometry is an angle: its name is `angle` or ends in `_angle`; else it is a length.
bool names_an_angle(std::string_view name);

/// Remembers the ids of one list. **Fails with** `duplicate_id`.
class IdList {
 public:
  IdList(std::string noun, Diagnostics& diagnostics) : noun_(std::move(noun)), diagnostics_(diagnostics) {}
  void add(const Spot& id);

 private:
  std::string noun_;
  Diagnostics& diagnostics_;
  Names seen_;
};

}  // namespace cotter::document
