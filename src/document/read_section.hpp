#pragma once
// Joints, stacks and what belongs to them: in a bicycle template, or in a `section` document that several templates
// share.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "document/read_spot.hpp"
#include "model/bicycle.hpp"

namespace cotter::document {

struct Section {
  std::vector<model::FeatureForm> features;
  std::vector<model::JointForm> joints;
  std::vector<model::ConnectionForm> connections;
  std::vector<model::StackDefinition> stacks;
  std::vector<model::Clearance> clearances;
};
using Sections = std::map<std::string, Section>;

/// What the entries may name.
struct TemplateNames {
  std::vector<std::string> places;
  std::vector<std::string> operations;
};

/// The entries of a template or a section. **Fails with** what `read_bicycle` lists.
Section read_entries(const Spot& spot, const TemplateNames& names, Diagnostics& diagnostics);
/// A `section` document; its entries may name only the places that it lists.
Section read_section(const Spot& spot, const std::vector<std::string>& operations, Diagnostics& diagnostics);
std::vector<model::StackDefinition> read_stacks(const Spot& list, const TemplateNames& names, Diagnostics& diagnostics);

/// Id of an entry that section and template both have.
std::optional<std::string> given_twice(const Section& section, const model::Bicycle& bicycle);
/// Adds what the template's own places allow: a joint needs both its places, a form of a stack all that it names.
void add_section(const Section& section, model::Bicycle& bicycle);

}  // namespace cotter::document
