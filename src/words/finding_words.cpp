#include "words/finding_words.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "words/phrase.hpp"
#include "words/press_words.hpp"

namespace cotter::words {
namespace {

using model::Finding;
using model::Verdict;
using quantity::Dimension;
using quantity::NumberStyle;

/// Digits that a builder can use; exact values shorter than this keep their own digits.
int decimals_of(Dimension dimension) {
  return dimension == Dimension::length || dimension == Dimension::angle ? 3 : 2;
}

std::string number(std::int64_t amount, Dimension dimension, const NumberStyle& style) {
  std::string text = quantity::print_rounded(amount, dimension, decimals_of(dimension), style);
  if (text.find_first_of(".,") != std::string::npos) {
    while (text.ends_with('0')) text.pop_back();
    if (text.ends_with('.') || text.ends_with(',')) text.pop_back();
  }
  // What is not nought is never shown as nought: it may be the amount by which something does not fit.
  return text == "0" || text == "-0" ? quantity::print_number(amount, dimension, style) : text;
}

std::string amount(std::int64_t base, Dimension dimension, const NumberStyle& style) {
  const std::string_view unit = quantity::unit_for(dimension, style);
  return number(base, dimension, style) + (unit.empty() || unit == "°" ? "" : " ") + std::string(unit);
}

Dimension dimension_of(const Finding& finding) {
  return finding.values.empty() ? Dimension::length : finding.values.front().value.dimension;
}

std::string number_name(const Finding& finding) {
  if (finding.law == "stack") return finding.rule_label;
  const std::string key = "number." + finding.law;
  return std::string(has_phrase(key) ? phrase(key) : phrase("number.difference"));
}

std::string missing_words(const Finding& finding, const NumberStyle& style) {
  const std::string side = finding.governs == model::Edge::from ? "low" : "high";
  const std::string key = has_phrase(side + "." + finding.law) ? side + "." + finding.law : side;
  return fill(key, {{"missing", amount(std::abs(finding.margin), dimension_of(finding), style)}});
}

std::string value_list(const Finding& finding, const NumberStyle& style) {
  std::vector<std::string> parts;
  for (const model::NamedValue& named : finding.values) {
    if (!named.ref) continue;
    const std::string who = named.place_label.empty() ? named.label : named.place_label + ": " + named.label;
    parts.push_back(who + " " + show(named.value.range(), named.value.dimension, style));
  }
  return join(parts, "; ");
}

void add_number_sentence(const Finding& finding, const NumberStyle& style, std::vector<std::string>& out) {
  if (!finding.result) return;
  const Dimension dimension = dimension_of(finding);
  Holes holes{{"values", value_list(finding, style)},
              {"number", number_name(finding)},
              {"result", show(*finding.result, dimension, style)}};
  if (finding.must) holes["window"] = show_window(*finding.must, dimension, style);
  if (finding.verdict == Verdict::accept && finding.should && !finding.passed) {
    holes["wish"] = show_window(*finding.should, dimension, style);
    out.push_back(fill(finding.must ? "finding.beside_wish" : "finding.beside_wish_only", holes));
    return;
  }
  if (!finding.must) {
    out.push_back(fill("finding.length", holes));
    return;
  }
  const bool adds = finding.verdict == Verdict::add && finding.without && !holes["values"].empty();
  if (adds) holes["without"] = show(*finding.without, dimension, style);
  std::string sentence = fill(adds                      ? "finding.number_with"
                              : holes["values"].empty() ? "finding.number_only"
                                                        : "finding.number",
                              holes);
  const bool outside = finding.verdict == Verdict::stop || finding.verdict == Verdict::rework || finding.passed;
  if (finding.margin < 0 && outside) {
    sentence.back() = ':';
    sentence += " " + missing_words(finding, style) + ".";
  }
  out.push_back(std::move(sentence));
}

std::string measurement_sentence(const model::Measurement& measurement, Dimension dimension, const NumberStyle& style) {
  const model::MeasureGuide& guide = measurement.guide;
  std::string text;
  if (guide.feature.empty()) {
    text = fill("measure.what_short", {{"label", measurement.label}});
  } else {
    const std::string tool =
        measurement.tool_label.empty() ? fill("measure.no_tool", {{"kind", guide.tool}}) : measurement.tool_label;
    text = fill("measure.what", {{"label", measurement.label},
                                 {"feature", guide.feature},
                                 {"faces", guide.faces},
                                 {"tool", tool},
                                 {"resolution", guide.resolution}});
  }
  const auto edge = [&](quantity::Mixed at) { return amount(at.base(), dimension, style); };
  const auto is_open = [](quantity::Mixed at) { return std::abs(at.base()) >= model::k_open_end; };
  if (measurement.holds) {
    const Holes holes{{"from", edge(measurement.holds->low())}, {"to", edge(measurement.holds->high())}};
    const bool no_low = is_open(measurement.holds->low()), no_high = is_open(measurement.holds->high());
    if (no_low && no_high)
      text += phrase("measure.confirm");
    else if (no_low)
      text += fill("measure.to", holes);
    else if (no_high)
      text += fill("measure.from", holes);
    else if (measurement.holds->low() == measurement.holds->high())
      text += fill("measure.exactly", holes);
    else
      text += fill("measure.between", holes);
  }
  if (measurement.may_hold) {
    if (!is_open(measurement.may_hold->low()))
      text += fill(measurement.with_these_pieces ? "measure.below_pieces" : "measure.below",
                   {{"from", edge(measurement.may_hold->low())}, {"verdict", measurement.below_means}});
    if (!is_open(measurement.may_hold->high()))
      text += fill(measurement.with_these_pieces ? "measure.above_pieces" : "measure.above",
                   {{"to", edge(measurement.may_hold->high())}, {"verdict", measurement.above_means}});
    if (!measurement.holds || *measurement.holds != *measurement.may_hold) text += phrase("measure.else");
  }
  return text;
}

/// Text of a part's words as a reader knows them: `inch_60` is no English.
std::string plain(std::string_view text) {
  const auto is_name = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_'; };
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    std::size_t end = i;
    while (end < text.size() && is_name(text[end])) ++end;
    if (end == i) {
      out += text[i++];
      continue;
    }
    std::string name(text.substr(i, end - i));
    if (has_phrase("word." + name))
      name = phrase("word." + name);
    else
      std::replace(name.begin(), name.end(), '_', ' ');
    out += name;
    i = end;
  }
  return out;
}

void add_fact_sentences(const Finding& finding, std::vector<std::string>& out) {
  // A fact key names a phrase; the facts that follow it, written `phrase/hole`, fill its holes.
  for (std::size_t i = 0; i < finding.facts.size(); ++i) {
    if (!has_phrase(finding.facts[i].first)) continue;
    Holes holes;
    for (std::size_t j = i + 1; j < finding.facts.size() && !has_phrase(finding.facts[j].first); ++j)
      holes[finding.facts[j].first] =
          finding.law == "connection" ? plain(finding.facts[j].second) : finding.facts[j].second;
    out.push_back(fill(finding.facts[i].first, holes));
  }
}

void add_paper_sentences(const Finding& finding, const NumberStyle& style, std::vector<std::string>& out) {
  const model::PassingPaper& paper = *finding.paper;
  out.push_back(fill("paper.passed", {{"verdict", std::string(word_for(*finding.passed))},
                                      {"writer", paper.written_by},
                                      {"window", show_window(paper.window, dimension_of(finding), style)},
                                      {"document", paper.document},
                                      {"page", paper.page},
                                      {"on", paper.on},
                                      {"by", finding.accepted_by},
                                      {"when", finding.accepted_when}}));
  out.emplace_back(phrase("paper.drawback"));
}

/// A range decides with both its ends, so the working shows both: "(3.97 to 4.03)".
std::string bare_range(const quantity::Range& range, Dimension dimension, const NumberStyle& style) {
  const std::string low = number(range.low().base(), dimension, style);
  const std::string high = number(range.high().base(), dimension, style);
  if (low != high) return "(" + low + " to " + high + ")";
  return range.low().base() < 0 ? "(" + low + ")" : low;
}

std::string formula_with_numbers(const Finding& finding, const NumberStyle& style) {
  std::string text;
  for (std::size_t i = 0; i < finding.formula.size();) {
    const auto is_name = [](char c) { return (c >= 'a' && c <= 'z') || c == '_' || (c >= '0' && c <= '9'); };
    if (!(finding.formula[i] >= 'a' && finding.formula[i] <= 'z')) {
      text += finding.formula[i++];
      continue;
    }
    std::size_t end = i;
    while (end < finding.formula.size() && is_name(finding.formula[end])) ++end;
    const std::string name = finding.formula.substr(i, end - i);
    const auto named = std::find_if(finding.values.begin(), finding.values.end(),
                                    [&](const model::NamedValue& value) { return value.symbol == name; });
    if (named == finding.values.end()) {
      text += name;
    } else {
      text += bare_range(named->value.range(), named->value.dimension, style);
    }
    i = end;
  }
  return text;
}

std::string_view source_word(const model::Source& source) {
  switch (source.kind) {
    case model::Source::Kind::standard:
      return "standard: ";
    case model::Source::Kind::maker:
      return "maker: ";
    case model::Source::Kind::handbook:
      return "handbook: ";
    case model::Source::Kind::common_practice:
      return "";
  }
  return "";
}

std::string law_words(const std::string& law) {
  const std::string key = "law." + law;
  return has_phrase(key) ? std::string(phrase(key)) : law;
}

}  // namespace

std::string show(const quantity::Range& range, Dimension dimension, const NumberStyle& style) {
  if (range.low() == range.high()) return amount(range.low().base(), dimension, style);
  const std::string low = number(range.low().base(), dimension, style);
  const std::string high = number(range.high().base(), dimension, style);
  if (low == high) return amount(range.low().base(), dimension, style);
  return low + " to " + amount(range.high().base(), dimension, style);
}

std::string show_window(const quantity::Range& window, Dimension dimension, const NumberStyle& style) {
  const bool no_low = window.low().base() <= -model::k_open_end, no_high = window.high().base() >= model::k_open_end;
  const Holes holes{
      {"from", no_high ? amount(window.low().base(), dimension, style) : number(window.low().base(), dimension, style)},
      {"to", amount(window.high().base(), dimension, style)}};
  if (no_low) return fill("window.to", holes);
  return fill(no_high ? "window.from" : "window.both", holes);
}

std::string show_origin(const quantity::Value& value, const NumberStyle& style) {
  using quantity::OriginKind;
  std::string text = value.origin.kind == OriginKind::unknown
                         ? "unknown, " + show(value.range(), value.dimension, style)
                         : show(value.range(), value.dimension, style);
  if (value.deviations == quantity::Deviations::filled && value.origin.kind != OriginKind::unknown)
    text += " (tolerance not stated; usual one taken)";
  if (value.deviations == quantity::Deviations::widened) text += " (stated finer than the tool reads; widened)";
  if (value.deviations == quantity::Deviations::shifted)
    text += " (read with a tool that reads this feature low; where the true size can lie)";
  const quantity::Origin& origin = value.origin;
  if (origin.kind == OriginKind::unknown) return text;
  text += ", " + std::string(word_for(origin.kind));
  std::vector<std::string> details;
  if (!origin.by.empty()) details.push_back("by " + origin.by);
  if (!origin.tool.empty()) details.push_back("with " + origin.tool);
  if (!origin.when.empty()) details.push_back(origin.when);
  if (!origin.source.empty()) details.push_back(origin.source);
  if (!details.empty()) text += ": " + join(details, ", ");
  return text;
}

std::string number_shown(const Finding& finding, const NumberStyle& style) {
  const Dimension dimension = dimension_of(finding);
  switch (finding.verdict) {
    case Verdict::stop:
    case Verdict::rework:
      if (finding.result && finding.margin < 0) return missing_words(finding, style);
      break;
    case Verdict::add: {
      std::int64_t count = 0;
      for (const model::Addition& addition : finding.additions) count += addition.count;
      if (count > 0) return std::to_string(count) + (count == 1 ? " part" : " parts");
      break;
    }
    case Verdict::accept:
      if (finding.passed) return missing_words(finding, style);
      if (finding.result && finding.should)
        return show(*finding.result, dimension, style) + ", wish " + show_window(*finding.should, dimension, style);
      break;
    case Verdict::measure:
    case Verdict::ok:
      if (finding.result) return show(*finding.result, dimension, style);
      break;
  }
  return "";
}

std::vector<std::string> sentences(const Finding& finding, const NumberStyle& style) {
  std::vector<std::string> out;
  add_number_sentence(finding, style, out);
  add_fact_sentences(finding, out);
  for (std::string& sentence : press_sentences(finding, style)) out.push_back(std::move(sentence));
  if (!finding.mismatches.empty())
    out.push_back(fill("finding.mismatch", {{"list", plain(join(finding.mismatches, "; "))}}));
  for (const model::Addition& addition : finding.additions) {
    const std::string dimension = addition.dimension.empty() ? "" : ", " + addition.dimension;
    out.push_back(fill("add.piece", {{"count", std::to_string(addition.count)},
                                     {"what", addition.what},
                                     {"dimension", dimension},
                                     {"where", addition.where}}) +
                  std::string(phrase(addition.proposed ? "add.proposed"
                                     : addition.in_kit ? "add.in_kit"
                                                       : "add.to_order")));
  }
  if (!finding.rests_on.empty() && finding.verdict != Verdict::ok) {
    const bool guarded = finding.verdict == Verdict::measure && finding.guards != model::Guards::nothing;
    out.push_back(
        fill(guarded ? "finding.rests_on_guarded" : "finding.rests_on", {{"names", join(finding.rests_on, ", ")}}));
  } else if (!finding.rests_on.empty()) {
    out.push_back(fill("finding.rests_on", {{"names", join(finding.rests_on, ", ")}}));
  }
  for (const model::Measurement& measurement : finding.measurements) {
    const auto named = std::find_if(finding.values.begin(), finding.values.end(), [&](const model::NamedValue& value) {
      return value.ref && *value.ref == measurement.ref;
    });
    out.push_back(measurement_sentence(
        measurement, named == finding.values.end() ? Dimension::length : named->value.dimension, style));
  }
  if (!finding.operation_label.empty()) out.push_back(fill("rework.what", {{"operation", finding.operation_label}}));
  if (!finding.advice.empty() && finding.verdict != Verdict::ok) out.push_back(finding.advice);
  // A chance by tolerances that nobody vouches for would only look like an answer.
  if (finding.probability && finding.verdict == Verdict::measure && finding.rests_on.empty())
    out.push_back(fill("probability",
                       {{"percent", fmt::format("{}", static_cast<int>(std::floor(*finding.probability * 100)))}}));
  if (finding.paper)
    add_paper_sentences(finding, style, out);
  else if (finding.passed)
    out.push_back(fill("finding.passed", {{"verdict", std::string(word_for(*finding.passed))},
                                          {"by", finding.accepted_by},
                                          {"when", finding.accepted_when},
                                          {"reason", finding.accepted_reason}}));
  else if (!finding.accepted_by.empty())
    out.push_back(fill("finding.accepted", {{"by", finding.accepted_by}, {"reason", finding.accepted_reason}}));
  return out;
}

std::string value_line(const model::NamedValue& named, const NumberStyle& style) {
  const std::string who = named.place_label.empty() ? named.label : named.place_label + ", " + named.label;
  const bool bare = !named.ref && named.value.origin.kind == quantity::OriginKind::assumed;
  return "value     " + named.symbol + " = " +
         (bare ? show(named.value.range(), named.value.dimension, style) : show_origin(named.value, style)) +
         (who.empty() ? "" : "  [" + who + "]");
}

std::vector<std::string> working(const Finding& finding, const NumberStyle& style) {
  const Dimension dimension = dimension_of(finding);
  std::vector<std::string> out;
  out.push_back("rule      " + finding.rule + (finding.rule_label.empty() ? "" : " (" + finding.rule_label + ")"));
  if (!finding.law.empty()) out.push_back("method    " + law_words(finding.law));
  for (const auto& [key, text] : finding.facts)
    if (key == "word") out.push_back("word      " + plain(text));
  for (const model::NamedValue& named : finding.values) out.push_back(value_line(named, style));
  if (!finding.formula.empty() && finding.result)
    out.push_back("formula   " + finding.formula + " = " + formula_with_numbers(finding, style) + " = " +
                  show(*finding.result, dimension, style));
  if (finding.must) out.push_back("must be   " + show_window(*finding.must, dimension, style));
  if (finding.should) out.push_back("usual     " + show_window(*finding.should, dimension, style));
  if (finding.result && finding.must) out.push_back("margin    " + amount(finding.margin, dimension, style));
  for (std::string& line : press_lines(finding, style)) out.push_back(std::move(line));
  out.push_back("source    " + std::string(source_word(finding.source)) + finding.source.text);
  const char* may_pass[] = {"may_pass.nobody", "may_pass.mechanic", "may_pass.maker"};
  out.push_back("limit     " + std::string(phrase(may_pass[static_cast<int>(finding.may_pass)])));
  return out;
}

}  // namespace cotter::words
