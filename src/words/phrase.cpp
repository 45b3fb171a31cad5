#include "words/phrase.hpp"

#include <algorithm>
#include <span>

#include "quantity/ensure.hpp"
#include "words/en/phrases.hpp"

namespace cotter::words {
namespace {

const en::Phrase* find(std::string_view key) {
  const std::span<const en::Phrase> all = en::phrases();
  const auto found = std::find_if(all.begin(), all.end(), [&](const en::Phrase& phrase) { return phrase.key == key; });
  return found == all.end() ? nullptr : &*found;
}

}  // namespace

bool has_phrase(std::string_view key) {
  return find(key) != nullptr;
}

std::string_view phrase(std::string_view key) {
  const en::Phrase* found = find(key);
  quantity::ensure(found != nullptr, "phrase without an entry in words/en");
  return found->text;
}

std::string fill(std::string_view key, const Holes& holes) {
  const std::string_view pattern = phrase(key);
  std::string text;
  for (std::size_t i = 0; i < pattern.size();) {
    if (pattern[i] != '{') {
      text += pattern[i++];
      continue;
    }
    const std::size_t end = pattern.find('}', i);
    quantity::ensure(end != std::string_view::npos, "phrase with an open hole");
    const auto hole = holes.find(pattern.substr(i + 1, end - i - 1));
    quantity::ensure(hole != holes.end(), "phrase with a hole that nothing fills");
    text += hole->second;
    i = end + 1;
  }
  return text;
}

std::string join(const std::vector<std::string>& parts, std::string_view between) {
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : std::string(between)) + part;
  return text;
}

std::string without_stop(std::string text) {
  while (text.ends_with('.')) text.pop_back();
  return text;
}

}  // namespace cotter::words
