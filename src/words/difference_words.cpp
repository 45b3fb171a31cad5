#include "words/difference_words.hpp"

#include <fmt/format.h>
#include <set>

#include "words/amounts.hpp"
#include "words/finding_words.hpp"
#include "words/layout.hpp"
#include "words/phrase.hpp"

namespace cotter::words {
namespace {

using model::Finding;
using model::FindingChange;
using model::Verdict;
using quantity::NumberStyle;
using Kind = model::FindingChange::Kind;

struct Section {
  std::string_view head;
  std::vector<std::string> sentences;
};

std::string subject(const Finding& finding) {
  if (finding.rule_label.empty() || finding.rule_label == finding.subject) return finding.subject;
  return finding.subject + ": " + finding.rule_label;
}

/// "stop [0.5 mm too large]".
std::string verdict_shown(const Finding& finding, const NumberStyle& style) {
  const std::string shown = number_shown(finding, style);
  return std::string(model::word_for(finding.verdict)) + (shown.empty() ? "" : " [" + shown + "]");
}

/// The room left, with what it is short by as a negative number: "-0.3 mm".
std::string margin_shown(const Finding& finding, const NumberStyle& style) {
  const auto dimension = finding.values.empty() ? quantity::Dimension::length : finding.values.front().value.dimension;
  return show(quantity::Range(quantity::Mixed::from_base(finding.margin)), dimension, style);
}

std::string_view key_of(Kind kind) {
  switch (kind) {
    case Kind::worse:
      return "difference.worse";
    case Kind::appeared:
      return "difference.appeared";
    case Kind::lapsed:
      return "difference.lapsed";
    case Kind::worse_margin:
      return "difference.worse_margin";
    case Kind::better:
      return "difference.better";
    case Kind::disappeared:
      return "difference.disappeared";
    case Kind::signed_for:
      return "difference.signed_for";
    case Kind::better_margin:
      return "difference.better_margin";
  }
  return "difference.worse";
}

std::string finding_sentence(const FindingChange& change, const NumberStyle& style) {
  const Finding& shown = change.after ? *change.after : *change.before;
  Holes holes{{"subject", subject(shown)}};
  if (change.before) {
    holes["was"] = verdict_shown(*change.before, style);
    holes["was_by"] = change.before->accepted_by;
    holes["was_margin"] = margin_shown(*change.before, style);
  }
  if (change.after) {
    holes["is"] = verdict_shown(*change.after, style);
    holes["is_by"] = change.after->accepted_by;
    holes["is_margin"] = margin_shown(*change.after, style);
    holes["verdict"] = std::string(model::word_for(change.after->verdict));
  }
  std::string text = fill(key_of(change.kind), holes);
  const bool moved = change.kind == Kind::worse || change.kind == Kind::better;
  if (moved && has_margin(*change.before) && has_margin(*change.after)) text += fill("difference.margin", holes);
  return text + " (" + shown.id + ")";
}

Section findings(const model::PlanDifference& difference, const NumberStyle& style) {
  Section section{"head.difference_findings", {}};
  std::size_t new_ok = 0, gone_ok = 0;
  for (const FindingChange& change : difference.findings) {
    if (change.kind == Kind::appeared && change.after->verdict == Verdict::ok)
      ++new_ok;
    else if (change.kind == Kind::disappeared && change.before->verdict == Verdict::ok)
      ++gone_ok;
    else
      section.sentences.push_back(finding_sentence(change, style));
  }
  if (new_ok > 0) section.sentences.push_back(fill("difference.new_ok", {{"count", std::to_string(new_ok)}}));
  if (gone_ok > 0) section.sentences.push_back(fill("difference.gone_ok", {{"count", std::to_string(gone_ok)}}));
  return section;
}

std::string part_shown(const std::optional<model::BillRow>& row) {
  if (!row || row->open) return std::string(phrase("difference.nothing"));
  std::string text = row->label + " (" + (row->mass ? grams(row->mass->nominal) : "? g");
  text += ", " + (row->price ? money(row->price->hundredths, row->price->currency) : "?") + ")";
  return row->quantity == 1 ? text : std::to_string(row->quantity) + " x " + text;
}

Section parts(const model::PlanDifference& difference) {
  Section section{"head.difference_parts", {}};
  for (const model::PartChange& change : difference.parts)
    section.sentences.push_back(
        fill("difference.part",
             {{"place", change.label}, {"was", part_shown(change.before)}, {"is", part_shown(change.after)}}));
  return section;
}

Section orders(const model::PlanDifference& difference) {
  Section section{"head.difference_orders", {}};
  for (const model::PartChange& change : difference.orders) {
    const bool earlier = change.before && change.before->to_order, later = change.after && change.after->to_order;
    if (earlier)
      section.sentences.push_back(
          fill("difference.no_order", {{"part", change.before->label}, {"place", change.label}}));
    if (later)
      section.sentences.push_back(fill("difference.order", {{"part", change.after->label}, {"place", change.label}}));
  }
  return section;
}

std::string way_shown(const std::optional<model::Run>& run) {
  if (!run) return std::string(phrase("difference.no_way"));
  std::string holes;
  for (const model::RunStep& step : run->steps) holes += (holes.empty() ? "" : ", ") + step.label;
  return fill("difference.way", {{"length", std::to_string(run->length)},
                                 {"way", std::to_string(run->way)},
                                 {"holes", holes.empty() ? std::string(phrase("difference.outside")) : holes}});
}

/// As the plan names it.
std::string line_shown(const model::Run& run) {
  return "line " + run.number + ", " + run.from + " to " + run.to;
}

std::string cut_shown(const std::optional<model::Cut>& cut, const NumberStyle& style) {
  if (!cut) return std::string(phrase("difference.nothing"));
  return cut->settled ? show(cut->length, quantity::Dimension::length, style) : std::string(phrase("cut.unsettled"));
}

Section lengths(const model::PlanDifference& difference, const NumberStyle& style) {
  Section section{"head.difference_lengths", {}};
  for (const model::CutChange& change : difference.cuts)
    section.sentences.push_back(fill(
        "difference.part",
        {{"place", change.label}, {"was", cut_shown(change.before, style)}, {"is", cut_shown(change.after, style)}}));
  for (const model::RunChange& change : difference.runs)
    section.sentences.push_back(
        fill("difference.part", {{"place", line_shown(change.after ? *change.after : *change.before)},
                                 {"was", way_shown(change.before)},
                                 {"is", way_shown(change.after)}}));
  return section;
}

Section work(const model::PlanDifference& difference) {
  Section section{"head.difference_work", {}};
  for (const model::StepChange& change : difference.steps) {
    const model::WorkStep& step = change.after ? *change.after : *change.before;
    const std::string_view key = !change.before  ? "difference.step_new"
                                 : !change.after ? "difference.step_gone"
                                                 : "difference.step_minutes";
    section.sentences.push_back(fill(key, {{"step", without_stop(step.label)},
                                           {"was", change.before ? hours(change.before->minutes) : ""},
                                           {"is", change.after ? hours(change.after->minutes) : ""}}));
  }
  return section;
}

std::string signed_text(std::int64_t difference, const std::string& text) {
  return (difference > 0 ? "+" : "") + text;
}

Section totals(const model::PlanDifference& difference) {
  Section section{"head.difference_totals", {}};
  const model::Totals& was = difference.totals_before;
  const model::Totals& is = difference.totals_after;
  const auto add = [&](std::string_view what, const std::string& before, const std::string& after,
                       const std::string& by) {
    section.sentences.push_back(
        fill("difference.total", {{"what", std::string(phrase(what))}, {"was", before}, {"is", after}, {"by", by}}));
  };
  if (was.mass != is.mass)
    add("difference.mass", grams(was.mass), grams(is.mass), signed_text(is.mass - was.mass, grams(is.mass - was.mass)));
  std::set<std::string> currencies;
  for (const auto* totals : {&was, &is})
    for (const auto& [currency, sum] : totals->price) currencies.insert(currency);
  for (const std::string& currency : currencies) {
    const auto sum = [&](const model::Totals& totals) {
      const auto found = totals.price.find(currency);
      return found == totals.price.end() ? 0 : found->second;
    };
    const std::int64_t by = sum(is) - sum(was);
    if (by != 0)
      add("difference.price", money(sum(was), currency), money(sum(is), currency),
          signed_text(by, money(by, currency)));
  }
  if (was.minutes != is.minutes) {
    const std::int64_t by = is.minutes - was.minutes;
    add("difference.minutes", hours(was.minutes), hours(is.minutes), (by > 0 ? "+" : "-") + hours(std::abs(by)));
  }
  const auto unknown = [&](std::string_view what, std::int64_t before, std::int64_t after) {
    if (before != after)
      section.sentences.push_back(fill(what, {{"was", std::to_string(before)}, {"is", std::to_string(after)}}));
  };
  unknown("difference.unweighed", was.unweighed, is.unweighed);
  unknown("difference.unpriced", was.unpriced, is.unpriced);
  return section;
}

std::vector<Section> sections(const model::PlanDifference& difference, const NumberStyle& style) {
  return {findings(difference, style), parts(difference), lengths(difference, style),
          orders(difference),          work(difference),  totals(difference)};
}

}  // namespace

std::vector<std::string> difference_sentences(const model::PlanDifference& difference, const NumberStyle& style) {
  std::vector<std::string> all;
  for (const Section& section : sections(difference, style))
    all.insert(all.end(), section.sentences.begin(), section.sentences.end());
  return all;
}

std::string difference_text(const model::PlanDifference& difference, const Layout& layout) {
  std::string text =
      hanging("from  ", difference.before, layout.width) + hanging("to    ", difference.after, layout.width);
  bool any = false;
  for (const Section& section : sections(difference, layout.numbers)) {
    if (section.sentences.empty()) continue;
    any = true;
    text += "\n" + std::string(phrase(section.head)) + "\n";
    for (const std::string& sentence : section.sentences) text += hanging("  - ", sentence, layout.width);
  }
  if (!any) text += "\n" + std::string(phrase("difference.none")) + "\n";
  const std::string count = std::to_string(difference.stops);
  return text + "\n" +
         fill(difference.stops == 0   ? "difference.no_stop"
              : difference.stops == 1 ? "difference.one_stop"
                                      : "difference.stops",
              {{"count", count}}) +
         "\n";
}

}  // namespace cotter::words
