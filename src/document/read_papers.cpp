// Papers of makers in a job.

#include <algorithm>
#include <cctype>

#include "document/read_parts.hpp"
#include "document/read_rules.hpp"
#include "document/read_sheet.hpp"
#include "quantity/text.hpp"

namespace cotter::document {
namespace {

bool is_date(const std::string& text) {
  constexpr std::string_view k_form = "dddd-dd-dd";
  if (text.size() != k_form.size()) return false;
  for (std::size_t i = 0; i < text.size(); ++i)
    if (k_form[i] == 'd' ? std::isdigit(static_cast<unsigned char>(text[i])) == 0 : text[i] != '-') return false;
  const int month = std::stoi(text.substr(5, 2)), day = std::stoi(text.substr(8, 2));
  return month >= 1 && month <= 12 && day >= 1 && day <= 31;
}

std::string read_date(const Spot& spot, Diagnostics& diagnostics) {
  if (spot.is_scalar() && !is_date(spot.text()))
    report(diagnostics, spot, "bad_value", "This is not a date.", "year, month and day, as `2026-05-02`");
  return spot.text();
}

/// What a paper must say; blanks say nothing.
std::string read_said(const Spot& spot, Diagnostics& diagnostics) {
  const std::string text = spot.text();
  if (spot.is_scalar() && text.find_first_not_of(" \t") == std::string::npos)
    report(diagnostics, spot, "bad_value", "A paper without this proves nothing.", "the words that stand on the paper");
  return text;
}

std::vector<std::string> rule_names(const SheetNames& names) {
  std::vector<std::string> rules;
  for (const auto& [id, kind] : names.catalog().kinds)
    for (const model::Meeting& meeting : kind.meets)
      for (const model::Rule& rule : meeting.rules) rules.push_back(rule.id);
  if (names.bicycle() == nullptr) return rules;
  for (const model::StackDefinition& stack : names.bicycle()->stacks)
    for (const model::StackForm& form : stack.forms) rules.push_back(stack.id + "." + form.id);
  return rules;
}

void check_finding(const Spot& spot, const SheetNames& names, Diagnostics& diagnostics) {
  if (!spot.is_scalar()) return;
  const auto rules = rule_names(names);
  const std::string text = spot.text(), rule = text.substr(0, text.find('@'));
  if (std::find(rules.begin(), rules.end(), rule) != rules.end() && rule != text) return;
  const auto nearest = quantity::nearest_word(rule, rules);
  report(diagnostics, spot, "unknown_name", "This names no finding.",
         "the name of a finding, as the plan prints it below each", nearest ? *nearest + "@" : "");
}

}  // namespace

std::vector<model::Paper> read_papers(const Spot& list, const SheetNames& names, Diagnostics& diagnostics) {
  std::vector<model::Paper> papers;
  IdList ids("paper", diagnostics);
  for (const Spot& item : list.items()) {
    ids.add(item.at("id"));
    const Spot part = item.at("part"), limit = item.at("limit");
    if (part.is_scalar() && names.find_part(part.text()) == nullptr)
      report_unknown(diagnostics, part, "part", names.part_names());
    check_finding(item.at("finding"), names, diagnostics);
    model::Paper paper;
    paper.id = item.at("id").text();
    paper.finding = item.at("finding").text();
    paper.part = part.text();
    paper.written_by = read_said(item.at("written_by"), diagnostics);
    paper.document = read_said(item.at("document"), diagnostics);
    paper.page = read_said(item.at("page"), diagnostics);
    paper.on = read_date(item.at("on"), diagnostics);
    paper.limit = read_window(limit, diagnostics);
    if (limit.is_map() && limit.entries().empty())
      report(diagnostics, limit, "missing_field", "A limit has at least one end.", "`from`, `to`, or both");
    paper.signed_by = read_said(item.at("signed").at("by"), diagnostics);
    paper.signed_when = read_date(item.at("signed").at("on"), diagnostics);
    papers.push_back(std::move(paper));
  }
  return papers;
}

}  // namespace cotter::document
