#include "words/new_job.hpp"

#include "words/layout.hpp"
#include "words/phrase.hpp"

namespace cotter::words {
namespace {

constexpr int k_width = 110;

using Names = std::vector<std::string>;

/// Each wrapped line starts with its own `#`.
std::string comments(const std::string& indent, const std::string& text) {
  std::string out;
  for (const std::string& line : wrap(text, k_width - static_cast<int>(indent.size()) - 4))
    out += indent + (out.empty() ? "# " : "#   ") + line + "\n";
  return out;
}

/// Text in quotes, as YAML and JSON both read it.
std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + "\"";
}

std::string needs_comment(const model::PlaceNeeds& place) {
  std::string out;
  Names features;
  for (const model::FeatureNeed& feature : place.features)
    features.push_back(feature.interface + (feature.kinds.empty() ? "" : " (" + join(feature.kinds, " or ") + ")"));
  const std::string_view key = place.place.optional ? "new.optional" : "new.place";
  const std::string asks = features.empty() ? std::string(phrase("new.no_features"))
                                            : fill("new.features", {{"list", join(features, ", ")}});
  out += comments("  ", fill(key, {{"label", place.place.label}}) + " " + asks);
  if (!place.parts.empty()) out += comments("  ", fill("new.parts", {{"list", join(place.parts, ", ")}}));
  return out;
}

bool needs_own(const model::PlaceNeeds& place, const NewJob& wished) {
  if (wished.own.contains(place.place.id)) return true;
  return place.parts.empty() && !place.features.empty() && !place.place.optional;
}

std::string unknown_fields(const model::InterfaceKind& kind) {
  std::string text = "{kind: " + kind.id;
  for (const model::KindDimension& dimension : kind.dimensions)
    if (dimension.required) text += ", " + dimension.id + ": \"?\"";
  for (const model::KindWord& word : kind.words)
    if (word.required) text += ", " + word.id + ": \"?\"";
  return text + "}";
}

std::string own_part(const model::PlaceNeeds& place, const model::Catalog& catalog) {
  std::string text = "  - id: " + place.place.id + "_here\n    label: " + quoted(place.place.label) +
                     "\n    family: " + place.place.id + "\n";
  std::string interfaces;
  for (const model::FeatureNeed& feature : place.features) {
    const auto kind = feature.kinds.empty() ? catalog.kinds.end() : catalog.kinds.find(feature.kinds.front());
    if (kind == catalog.kinds.end()) continue;
    if (feature.kinds.size() > 1)
      interfaces += comments(
          "      ", fill("new.kinds", {{"interface", feature.interface}, {"list", join(feature.kinds, ", ")}}));
    interfaces += "      " + feature.interface + ": " + unknown_fields(kind->second) + "\n";
  }
  return text + (interfaces.empty() ? "" : "    interfaces:\n" + interfaces);
}

std::string lines_comment(const model::TemplateNeeds& needs) {
  if (needs.lines.empty()) return "";
  std::string text = comments("", std::string(phrase("new.lines"))) + "# lines:\n";
  for (const model::LineNeed& line : needs.lines) {
    text += "#   - {id: " + line.connection.id + ", part: " + (line.parts.empty() ? "?" : line.parts.front()) +
            ", from: " + line.connection.a.text() + ", to: " + line.connection.b.text() + "}\n";
    if (line.parts.size() > 1) text += comments("", fill("new.line_parts", {{"list", join(line.parts, ", ")}}));
  }
  return text;
}

}  // namespace

std::string new_job_text(const model::Bicycle& bicycle, const model::TemplateNeeds& needs,
                         const model::Catalog& catalog, const NewJob& wished) {
  std::string own, places;
  for (const model::PlaceNeeds& place : needs.places) {
    const bool written_here = needs_own(place, wished);
    places += needs_comment(place) + "  " + place.place.id + ": ";
    places += written_here ? place.place.id + "_here\n" : "{is: " + place.place.id + "}\n";
    if (written_here) own += own_part(place, catalog);
  }
  std::string text = comments("", fill("new.head", {{"template", bicycle.label}}));
  text += "cotter: job 1\nid: new_job\ntitle: " + quoted(wished.title.empty() ? bicycle.label : wished.title) +
          "\nbicycle: " + bicycle.id + "\nrevision: A\n";
  if (!own.empty()) text += "\n" + comments("", std::string(phrase("new.own"))) + "parts:\n" + own;
  return text + "\nplaces:\n" + places + "\n" + lines_comment(needs);
}

std::string catalog_text(const model::Catalog& catalog, const model::CatalogUse& use, int width) {
  std::string text(phrase("head.catalog_kinds"));
  text += "\n";
  for (const auto& [id, parts] : use.parts_by_kind) {
    const std::string list = parts.empty() ? std::string(phrase("catalog.no_part")) : join(parts, ", ");
    text += hanging("  ",
                    fill("catalog.kind", {{"kind", id},
                                          {"label", catalog.kinds.at(id).label},
                                          {"count", std::to_string(parts.size())},
                                          {"list", list}}),
                    width);
  }
  text += "\n" + fill("head.catalog_families", {{"count", std::to_string(use.parts_by_family.size())}}) + "\n";
  for (const auto& [family, parts] : use.parts_by_family)
    text += hanging("  ",
                    fill("catalog.family",
                         {{"family", family}, {"count", std::to_string(parts.size())}, {"list", join(parts, ", ")}}),
                    width);
  text += "\n" + std::string(phrase("head.catalog_unused")) + "\n";
  const bool none = use.unused_parts.empty();
  return text + hanging("  ", none ? std::string(phrase("catalog.all_used")) : join(use.unused_parts, ", "), width);
}

}  // namespace cotter::words
