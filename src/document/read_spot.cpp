#include "document/read_spot.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fmt/format.h>
#include <tuple>

#include "document/parse_tree.hpp"
#include "quantity/text.hpp"

namespace cotter::document {
namespace {

constexpr std::size_t k_names_shown = 12;

template <class T>
T number_in(const std::string& text, T fallback) {
  T number{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  return error == std::errc{} && end == text.data() + text.size() ? number : fallback;
}

std::string listed(const std::vector<std::string>& names) {
  if (names.empty()) return "";
  std::string out;
  for (std::size_t i = 0; i < std::min(names.size(), k_names_shown); ++i) out += (i == 0 ? "" : ", ") + names[i];
  if (names.size() > k_names_shown) out += fmt::format(", ... ({} in all)", names.size());
  return out;
}

}  // namespace

Spot::Spot(const Node& root, std::string field) : node_(&root), field_(std::move(field)), mark_(root.mark()) {}

Spot Spot::at(std::string_view key) const {
  Spot spot;
  spot.field_ = path_of_key(field_, key);
  spot.mark_ = mark_;
  if (!is_map()) return spot;
  spot.node_ = node_->find(key);
  if (spot.node_ != nullptr) spot.mark_ = spot.node_->mark();
  return spot;
}

std::vector<Spot> Spot::items() const {
  std::vector<Spot> spots;
  if (!is_list()) return spots;
  for (const Node& item : node_->items()) spots.emplace_back(item, path_of_item(field_, spots.size()));
  return spots;
}

std::vector<SpotEntry> Spot::entries() const {
  std::vector<SpotEntry> spots;
  if (!is_map()) return spots;
  for (const Node::Entry& entry : node_->entries()) spots.emplace_back(*this, entry);
  return spots;
}

std::string Spot::text(std::string fallback) const {
  return is_scalar() ? node_->scalar() : std::move(fallback);
}

std::int64_t Spot::integer(std::int64_t fallback) const {
  return is_scalar() ? number_in(node_->scalar(), fallback) : fallback;
}

double Spot::real(double fallback) const {
  return is_scalar() ? number_in(node_->scalar(), fallback) : fallback;
}

std::int64_t Spot::hundredths() const {
  return std::llround(real(0) * 100);
}

bool Spot::flag(bool fallback) const {
  if (!is_scalar()) return fallback;
  if (node_->scalar() == "true") return true;
  return node_->scalar() == "false" ? false : fallback;
}

std::vector<std::string> Spot::texts() const {
  std::vector<std::string> out;
  for (const Spot& item : items())
    if (item.is_scalar()) out.push_back(item.text());
  return out;
}

std::string Spot::found() const {
  return name_.empty() ? text() : name_;
}

SpotEntry::SpotEntry(const Spot& map, const Node::Entry& entry)
    : key(entry.key), value(entry.value, path_of_key(map.field_, entry.key)) {
  name.field_ = value.field_;
  name.name_ = entry.key;
  name.mark_ = entry.key_mark;
}

void report(Diagnostics& diagnostics, const Spot& spot, std::string code, std::string message, std::string accepted,
            std::string suggestion) {
  Diagnostic diagnostic;
  diagnostic.code = std::move(code);
  diagnostic.mark = spot.mark();
  diagnostic.field = spot.field();
  diagnostic.message = std::move(message);
  diagnostic.found = spot.found();
  diagnostic.accepted = std::move(accepted);
  diagnostic.suggestion = std::move(suggestion);
  diagnostics.add(std::move(diagnostic));
}

void report_unknown(Diagnostics& diagnostics, const Spot& spot, std::string_view noun,
                    const std::vector<std::string>& known) {
  report(diagnostics, spot, "unknown_name", fmt::format("There is no {} of this name.", noun), listed(known),
         quantity::nearest_word(spot.found(), known).value_or(""));
}

void report_duplicate(Diagnostics& diagnostics, const Spot& spot, std::string_view noun, const Seen& first) {
  report(
      diagnostics, spot, "duplicate_id",
      fmt::format("This {} is given twice, first at {}:{}:{}.", noun, first.file, first.mark.line, first.mark.column),
      "a name that is not used yet");
}

Diagnostics in_text_order(const Diagnostics& diagnostics) {
  // Beyond the most that are kept the order of the rest is not known, so the list stays as it is.
  if (diagnostics.left_out() > 0) return diagnostics;
  auto list = diagnostics.list();
  std::stable_sort(list.begin(), list.end(), [](const Diagnostic& a, const Diagnostic& b) {
    return std::tie(a.mark.line, a.mark.column) < std::tie(b.mark.line, b.mark.column);
  });
  Diagnostics ordered(diagnostics.file());
  for (Diagnostic& diagnostic : list) ordered.add(std::move(diagnostic));
  return ordered;
}

}  // namespace cotter::document
