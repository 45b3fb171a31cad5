#pragma once
// English. A second language is a second folder with the same keys.

#include <span>
#include <string_view>

namespace cotter::words::en {

struct Phrase {
  std::string_view key;
  std::string_view text;
};

std::span<const Phrase> phrases();

}  // namespace cotter::words::en
