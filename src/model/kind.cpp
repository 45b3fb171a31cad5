#include "model/kind.hpp"

#include <algorithm>

namespace cotter::model {

const KindDimension* find_dimension(const InterfaceKind& kind, const std::string& id) {
  const auto found = std::find_if(kind.dimensions.begin(), kind.dimensions.end(),
                                  [&](const KindDimension& dimension) { return dimension.id == id; });
  return found == kind.dimensions.end() ? nullptr : &*found;
}

}  // namespace cotter::model
