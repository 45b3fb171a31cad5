#pragma once
// The sections of a job. Each is read with what the ones before it gave; inside of read_job.

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "document/read_kinds.hpp"
#include "document/read_spot.hpp"
#include "document/read_value.hpp"
#include "model/catalog.hpp"
#include "model/job.hpp"

namespace cotter::document {

/// Looks names up in a job that is being read.
class SheetNames {
 public:
  SheetNames(const model::Sheet& sheet, const model::Catalog& catalog) : sheet_(sheet), catalog_(catalog) {}

  const model::Catalog& catalog() const { return catalog_; }
  /// The template, or nullptr when the job names none that exists.
  const model::Bicycle* bicycle() const;
  std::vector<std::string> template_places() const;
  /// Names a reference may use for a place: the job's own and the template's.
  std::vector<std::string> place_names() const;
  std::vector<std::string> part_names() const;
  /// Written in the job or from the catalog; nullptr when neither has it.
  const model::Part* find_part(const std::string& id) const;
  /// The part in a place; nullptr when the place is open.
  const model::Part* part_in(const std::string& place) const;
  /// The job's name of a place, from a name of the job, of the template, or an old one.
  std::string name_now(const std::string& place) const;

 private:
  const model::Sheet& sheet_;
  const model::Catalog& catalog_;
};

model::Shop read_shop(const Spot& spot, Diagnostics& diagnostics);
/// **Fails with** `unknown_name`, `duplicate_id` for a place of the template filled twice, `part_twice`, and what
/// `read_override` says.
std::vector<model::Place> read_places(const Spot& spot, const SheetNames& names, const model::Shop& shop,
                                      Diagnostics& diagnostics);
/// **Fails with** `unlike_interfaces` for kinds that can never meet.
std::vector<model::JointForm> read_joints(const Spot& list, const SheetNames& names, Diagnostics& diagnostics);
/// **Fails with** `unlike_ends` when the ends of the line do not belong to the ports, `unknown_name` for a port or an
/// opening, `missing_field` for a line that is neither a part nor a lead of its device.
std::vector<model::LineWish> read_wishes(const Spot& list, const SheetNames& names, Diagnostics& diagnostics);
/// Openings that something else sits in. **Fails with** `unknown_name`, `duplicate_id`.
std::vector<model::TakenOpening> read_taken(const Spot& list, const SheetNames& names, Diagnostics& diagnostics);
std::optional<model::BrakeHands> read_hands(const Spot& spot);
/// **Fails with** `alias_circle`, and `duplicate_id` for an old name that is in use.
std::map<std::string, std::string> read_aliases(const Spot& spot, const std::vector<model::Place>& places,
                                                Diagnostics& diagnostics);
/// **Fails with** `unknown_name` for a part or a rule that does not exist, `missing_field` for a limit without ends,
/// `bad_value` for a text that says nothing and for a date that is none.
std::vector<model::Paper> read_papers(const Spot& list, const SheetNames& names, Diagnostics& diagnostics);
std::vector<model::Decision> read_decisions(const Spot& list, Diagnostics& diagnostics);

/// A value that replaces one of a part: `target` is `interface.dimension` or `geometry.name`. `name` is where the
/// target is written. **Fails with** `bad_reference`, `unknown_name`, the value's own diagnostics.
std::optional<quantity::Value> read_override(const Spot& name, const std::string& target, const Spot& value,
                                             const model::Part& part, const Kinds& kinds, const ValueContext& context,
                                             Diagnostics& diagnostics);

}  // namespace cotter::document
