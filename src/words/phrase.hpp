#pragma once
// Phrases by key, with named holes. The only place where the program's own sentences stand is words/en.

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace cotter::words {

/// The phrase of a key. Unknown keys are a bug.
std::string_view phrase(std::string_view key);
bool has_phrase(std::string_view key);

using Holes = std::map<std::string, std::string, std::less<>>;

/// The phrase with each `{name}` replaced by its entry. A hole without an entry is a bug.
std::string fill(std::string_view key, const Holes& holes);

/// All parts in a row: "a, b, c".
std::string join(const std::vector<std::string>& parts, std::string_view between);
/// A sentence as part of another: without its full stop.
std::string without_stop(std::string text);

}  // namespace cotter::words
