#pragma once
// Phrases by key, with named holes. The only place where the program's own sentences stand is words/en.

#include <map>
#include <string>
#include <string_view>

namespace cotter::words {

/// The phrase of a key. Unknown keys are a bug.
std::string_view phrase(std::string_view key);
bool has_phrase(std::string_view key);

using Holes = std::map<std::string, std::string, std::less<>>;

/// The phrase with each `{name}` replaced by its entry. A hole without an entry is a bug.
std::string fill(std::string_view key, const Holes& holes);

}  // namespace cotter::words
