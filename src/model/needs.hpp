#pragma once
// What a bicycle template asks of the parts in its places, and what of the catalog could go there.

#include <map>
#include <string>
#include <vector>

#include "model/bicycle.hpp"
#include "model/names.hpp"

namespace cotter::model {

struct FeatureNeed {
  std::string interface;
  std::vector<std::string> kinds;  ///< what it may be, by the parts and rules of the catalog
};

struct PlaceNeeds {
  PlaceForm place;
  std::vector<FeatureNeed> features;
  std::vector<std::string> parts;  ///< ids of parts of the catalog that could go there
};

/// A line the template wants between two devices.
struct LineNeed {
  ConnectionForm connection;
  std::vector<std::string> parts;  ///< lines of the catalog whose ends belong to the ports
};

struct TemplateNeeds {
  std::vector<PlaceNeeds> places;
  std::vector<LineNeed> lines;
};

/// What stands in a catalog and who uses it.
struct CatalogUse {
  std::map<std::string, std::vector<std::string>> parts_by_kind;  ///< every kind, also those no part offers
  std::map<std::string, std::vector<std::string>> parts_by_family;
  std::vector<std::string> unused_parts;  ///< in no job that was asked about, and fit for no place of a template
};

}  // namespace cotter::model
