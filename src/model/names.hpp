#pragma once
// How things in a job are named: `place.interface` and `place.interface.dimension`.

#include <compare>
#include <string>

namespace cotter::model {

/// One mating feature of the part in one place.
struct InterfaceRef {
  std::string place;
  std::string interface;
  auto operator<=>(const InterfaceRef&) const = default;
  std::string text() const { return place + "." + interface; }
};

/// One dimension of one mating feature.
struct ValueRef {
  std::string place;
  std::string interface;
  std::string dimension;
  auto operator<=>(const ValueRef&) const = default;
  std::string text() const { return place + "." + interface + "." + dimension; }
};

}  // namespace cotter::model
