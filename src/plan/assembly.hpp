#pragma once
// The job put together with the catalog: what is in each place, with the job's own values in. Read by every adapter.

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "model/catalog.hpp"
#include "model/job.hpp"

namespace cotter::plan {

/// A place of the template and what fills it.
struct Seated {
  const model::PlaceForm* form = nullptr;
  std::string id;                   ///< the job's name for the place
  std::optional<model::Part> part;  ///< with the job's and the journal's values in; empty: the place is open
  bool at_hand = false;
  bool from_catalog = false;
};

/// What a wished line is: a part of its own, or a lead that cannot be parted from its device.
struct WishedLine {
  const model::LineForm* form = nullptr;  ///< nullptr: the place with the device is open
  const model::Part* part = nullptr;      ///< of its own; nullptr for a lead
  std::string label;
};

/// A value with everything needed to show it.
struct FoundValue {
  const quantity::Value* value = nullptr;  ///< nullptr: no part states it
  const model::KindDimension* dimension = nullptr;
  std::string label;        ///< "bore of the press-fit shell"
  std::string place_label;  ///< "frame"
  model::ValueRef ref;      ///< in the job's names
};

class Assembly {
 public:
  /// Requires a job that `document::read_job` has accepted against this catalog. Both must outlive the assembly.
  Assembly(const model::Job& job, const model::Catalog& catalog);
  Assembly(const Assembly&) = delete;
  Assembly& operator=(const Assembly&) = delete;

  const model::Job& job() const { return *job_; }
  const model::Catalog& catalog() const { return *catalog_; }
  const model::Bicycle& bicycle() const { return *bicycle_; }

  /// By the template's name of the place, in the template's order.
  const std::vector<Seated>& places() const { return places_; }
  /// A line of the job is found as `lines.<id>`; it is in no other list of places.
  const Seated* place(const std::string& template_name) const;
  /// Joints of the template whose conditions hold, those of the job, and those of each line with the two devices that
  /// it ends at, where the catalog has rules for their features; all in the template's names.
  const std::vector<model::JointForm>& joints() const { return joints_; }
  /// Stacks and forms of the template whose conditions hold.
  const std::vector<model::StackDefinition>& stacks() const { return stacks_; }
  /// Clearances of the template whose conditions hold.
  const std::vector<model::Clearance>& clearances() const { return clearances_; }
  /// Connections of the template whose conditions hold.
  const std::vector<model::ConnectionForm>& connections() const { return connections_; }
  /// What can be said of the places: `place:`, `open:`, `kind:`, `family:`, `material:`, `used:`, `hand:`. A place that
  /// must be filled counts as filled for `place:`: its step stays in the plan, and the choice must be made before it.
  const std::set<std::string>& facts() const { return facts_; }

  const model::Interface* interface(const model::InterfaceRef& ref) const;
  std::optional<FoundValue> value(const model::ValueRef& ref) const;
  /// A dimension that the part in the place could state and does not; empty when the place is open or the part has no
  /// such feature.
  std::optional<FoundValue> unstated(const model::ValueRef& ref) const;
  /// A number of a part's geometry, by place and name.
  const quantity::Value* geometry(const std::string& place, const std::string& name) const;
  /// A part by its id, written in the job or from the catalog; nullptr when neither has it.
  const model::Part* find_part(const std::string& id) const;
  WishedLine line_of(const model::LineWish& wish) const;
  /// The name of an opening, `place.opening`, in the template's names.
  std::string template_hole(const std::string& job_name) const;
  /// The reference in the job's own names.
  model::InterfaceRef in_job_names(const model::InterfaceRef& ref) const;
  /// "frame, right side of the shell": label of the place and of the feature.
  std::string label(const model::InterfaceRef& ref) const;
  /// Template name of a place the job calls `job_name`; itself when there is none.
  std::string template_name(const std::string& job_name) const;

 private:
  bool joined(const model::JointForm& joint) const;
  void take_conditional();
  void seat_lines();
  void join_line(const Seated& line, const std::string& place);

  const model::Job* job_;
  const model::Catalog* catalog_;
  const model::Bicycle* bicycle_;
  std::vector<Seated> places_;
  std::vector<model::PlaceForm> line_forms_;
  std::vector<Seated> lines_;
  std::map<std::string, std::size_t> by_template_name_;
  std::map<std::string, std::string> template_names_;
  std::set<std::string> facts_;
  std::vector<model::JointForm> joints_;
  std::vector<model::StackDefinition> stacks_;
  std::vector<model::ConnectionForm> connections_;
  std::vector<model::Clearance> clearances_;
};

/// All of the conditions are among the facts; `!` in front negates.
bool all_hold(const model::Conditions& conditions, const std::set<std::string>& facts);

}  // namespace cotter::plan
