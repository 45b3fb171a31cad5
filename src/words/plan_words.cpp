#include "words/plan_words.hpp"

#include <algorithm>
#include <cstdlib>
#include <fmt/format.h>
#include <map>

#include "words/amounts.hpp"
#include "words/bench_words.hpp"
#include "words/finding_words.hpp"
#include "words/layout.hpp"
#include "words/phrase.hpp"

namespace cotter::words {
namespace {

using model::Plan;
using model::Verdict;

std::string bold(std::string_view text, const Layout& layout) {
  return layout.emphasis == Emphasis::bold ? "\033[1m" + std::string(text) + "\033[0m" : std::string(text);
}

/// Wrapped behind `first`, of which `word` at its beginning or after blanks is bold.
std::string hanging_bold(std::string_view first, std::string_view word, std::string_view text, const Layout& layout) {
  std::string out = hanging(first, text, layout.width);
  const std::size_t at = out.find(word);
  return layout.emphasis == Emphasis::bold ? out.replace(at, word.size(), bold(word, layout)) : out;
}

std::string head(std::string_view key, const Layout& layout) {
  return "\n" + bold(phrase(key), layout) + "\n";
}

std::string title(const Plan& plan, const Layout& layout) {
  const std::string named =
      plan.title + " (" + plan.job + (plan.revision.empty() ? ")" : ", revision " + plan.revision + ")");
  std::string text;
  for (const std::string& line : wrap(named, layout.width)) text += bold(line, layout) + "\n";
  text += hanging("",
                  plan.bicycle_label + (plan.shop.empty() ? "" : "; " + plan.shop) +
                      (plan.country.empty() ? "" : ", " + plan.country),
                  layout.width);
  if (!plan.note.empty()) text += hanging("", plan.note, layout.width);
  const auto said = plan.left_is_front ? std::pair{"plan.hands_front", "plan.hands_front_asked"}
                                       : std::pair{"plan.hands_rear", "plan.hands_rear_asked"};
  text +=
      hanging("", fill(plan.hands_by ? said.first : said.second, {{"by", plan.hands_by.value_or("")}}), layout.width);
  return text;
}

std::string cautions_text(const Layout& layout) {
  std::string text = head("caution.head", layout);
  for (const std::string& caution : cautions()) text += hanging("  ! ", caution, layout.width);
  return text;
}

/// Whether a mechanic may sign for it and nobody has.
bool awaits_signature(const model::Finding& finding) {
  return finding.verdict == Verdict::accept && finding.accepted_by.empty() && finding.guards == model::Guards::nothing;
}

std::string finding_text(const model::Finding& finding, std::size_t number, const Layout& layout) {
  const std::string word(model::word_for(finding.verdict));
  const std::string shown = number_shown(finding, layout.numbers);
  std::string text = hanging_bold(
      fmt::format("{:>3}  {} ", number, cell(word, 8)), cell(word, 8),
      finding.subject +
          (finding.rule_label.empty() || finding.rule_label == finding.subject ? "" : ": " + finding.rule_label) +
          (shown.empty() ? "" : " [" + shown + "]"),
      layout);
  for (const std::string& sentence : sentences(finding, layout.numbers))
    text += hanging("              ", sentence, layout.width);
  return text + "              " + finding.id + "\n";
}

std::string findings_text(const Plan& plan, const Layout& layout) {
  std::string text = head("head.verdicts", layout) + "  " + verdict_counts(plan) + "\n";
  std::size_t number = 0, folded = 0;
  for (const model::Finding& finding : plan.findings) {
    ++number;
    if (finding.verdict == Verdict::ok) {
      ++folded;
      continue;
    }
    text += "\n" + finding_text(finding, number, layout);
  }
  if (folded > 0) text += "\n  " + fill("head.ok_folded", {{"count", std::to_string(folded)}}) + "\n";
  if (std::any_of(plan.findings.begin(), plan.findings.end(), awaits_signature))
    text += "\n" + hanging("  ", phrase("accept.command"), layout.width);
  return text;
}

std::string next_text(const Plan& plan, const Layout& layout) {
  if (plan.measure_next.empty()) return "";
  std::string text = head("head.next", layout);
  std::size_t number = 0;
  for (const std::string& line : measure_next_lines(plan))
    text += hanging(fmt::format("{:>3}  ", ++number), line, layout.width);
  const std::string others = other_measurements(plan);
  return others.empty() ? text : text + hanging("     ", others, layout.width);
}

std::string unchecked_text(const Plan& plan, const Layout& layout) {
  std::string text = head("head.unchecked", layout);
  for (const std::string& line : unchecked_lines(plan)) text += hanging("  ", line, layout.width);
  return text + hanging("  ", phrase("unchecked.version"), layout.width);
}

std::string mass_words(const std::optional<quantity::Value>& mass) {
  return mass ? grams(mass->nominal) : "?";
}

/// Money is summed by currency: nobody adds one to another here.
struct Sums {
  std::int64_t mass = 0, unweighed = 0, unpriced = 0;
  std::map<std::string, std::int64_t> price, to_order;
};

Sums sums_of(const Plan& plan) {
  Sums sums;
  sums.price[plan.currency] = sums.to_order[plan.currency] = 0;
  for (const model::BillRow& row : plan.bill) {
    if (row.open) continue;
    if (row.mass)
      sums.mass += row.mass->nominal * row.quantity;
    else
      ++sums.unweighed;
    if (!row.price) {
      ++sums.unpriced;
      continue;
    }
    const std::int64_t price = row.price->hundredths * row.quantity;
    sums.price[row.price->currency] += price;
    if (row.to_order) sums.to_order[row.price->currency] += price;
  }
  return sums;
}

/// Own currency first; others that nothing was paid in are left out.
std::string money_sum(const std::map<std::string, std::int64_t>& sum, const std::string& own) {
  std::string text = money(sum.at(own), own);
  for (const auto& [currency, hundredths] : sum) {
    if (currency == own || hundredths == 0) continue;
    text = (sum.at(own) == 0 && text == money(0, own) ? "" : text + " + ") + money(hundredths, currency);
  }
  return text;
}

std::string together(const Plan& plan, const Layout& layout) {
  const Sums sums = sums_of(plan);
  const auto missing = [](std::int64_t count, std::string_view what) {
    return count == 0 ? "" : fmt::format(" (and {} {})", count, what);
  };
  return hanging("    ",
                 fmt::format("Together {} g{}, {}{}; still to order {}.", (sums.mass + 500) / 1000,
                             missing(sums.unweighed, "not weighed"), money_sum(sums.price, plan.currency),
                             missing(sums.unpriced, "without a price"), money_sum(sums.to_order, plan.currency)),
                 layout.width);
}

/// A name that is wider than its column goes on below it: a cut description cannot be ordered by.
std::string bill_row(const model::BillRow& row, int wide) {
  constexpr int k_place = 19;
  const auto places = wrap(row.place_label, k_place);
  const auto names = wrap(row.open ? "-" : row.label, wide);
  std::string text;
  for (std::size_t i = 0; i < std::max(places.size(), names.size()); ++i) {
    std::string line = cell_right(i == 0 ? std::to_string(row.item) : "", 3) + " " +
                       cell(i < places.size() ? places[i] : "", k_place) + " " +
                       cell(i < names.size() ? names[i] : "", wide);
    if (i == 0)
      line += cell_right(row.open ? "" : mass_words(row.mass), 8) +
              cell_right(row.price  ? money(row.price->hundredths, row.price->currency)
                         : row.open ? ""
                                    : "?",
                         15) +
              "  " +
              (row.open       ? "open"
               : row.to_order ? "to order"
                              : "at hand");
    while (line.ends_with(' ')) line.pop_back();
    text += line + "\n";
  }
  return text;
}

std::string bill_text(const Plan& plan, const Layout& layout) {
  const int wide = std::max(20, layout.width - 4 - 20 - 9 - 15 - 10);
  std::string text = head("head.bill", layout);
  for (const model::BillRow& row : plan.bill) text += bill_row(row, wide);
  return text + together(plan, layout);
}

/// How the length of a line is settled.
const char* length_phrase(const model::Run& run) {
  if (!run.cut_to_length) return "route.choose";
  return run.kind == model::LineForm::Kind::housing ? "route.start_housing" : "route.start";
}

/// Marks count from the seat of an end, so the spare of a line that is cut last is said beside them.
std::string spare_words(const model::Run& run) {
  if (!run.cut_to_length || run.steps.empty() || run.length <= run.way) return "";
  return " " + fill("route.spare", {{"spare", std::to_string(run.length - run.way)}});
}

/// Said again where the runs stand: nobody pulls a line by a plan that leaves another out, without knowing it.
std::string left_out_text(const Plan& plan, const Layout& layout) {
  for (const model::Finding& finding : plan.findings)
    for (std::size_t i = 0; i + 1 < finding.facts.size(); ++i)
      if (finding.facts[i].first == "route.without")
        return hanging("  ! ", fill("route.without", {{"lines", finding.facts[i + 1].second}}), layout.width);
  return "";
}

std::string lines_text(const Plan& plan, const Layout& layout) {
  if (plan.runs.empty()) return "";
  std::string text = head("head.lines", layout) + left_out_text(plan, layout);
  for (const model::Run& run : plan.runs) {
    const std::string length = fill(length_phrase(run), {{"length", std::to_string(run.length)}});
    text += hanging_bold("  " + run.number + " ", run.number,
                         run.label + ": " + run.from + " to " + run.to + "; " + length + ".", layout);
    std::string way;
    for (const model::RunStep& step : run.steps)
      way += (way.empty() ? "" : ", ") + (step.letter.empty() ? "" : step.letter + " ") + step.label +
             fmt::format(" at {} mm", step.depth);
    text += hanging("     ",
                    fill("route.length", {{"way", std::to_string(run.way)}}) + " " +
                        fill("route.leads", {{"end", run.leading_end}, {"marks", way.empty() ? "none" : way}}) +
                        spare_words(run),
                    layout.width);
  }
  for (const model::PullOrder& order : plan.pull_order)
    text += hanging("  ", order.first + " before " + order.then + ", because of " + order.because + ".", layout.width);
  return text;
}

std::string openings_text(const Plan& plan, const Layout& layout) {
  if (plan.openings.empty()) return "";
  std::string text = head("head.openings", layout);
  for (const model::OpeningUse& use : plan.openings) {
    if (use.letter.empty()) continue;
    std::string content;
    for (const std::string& line : use.lines) content += (content.empty() ? "" : ", ") + line;
    if (!use.device.empty()) content += (content.empty() ? "" : ", ") + use.device;
    const std::string size =
        use.shape.round()
            ? show(use.shape.width.range(), quantity::Dimension::length, layout.numbers)
            : quantity::print_number(use.shape.width.nominal, quantity::Dimension::length, layout.numbers) + " x " +
                  show(use.shape.length.range(), quantity::Dimension::length, layout.numbers);
    text += hanging("  " + cell(use.letter, 3) + cell(use.label, std::max(24, layout.width - 50)) + cell(size, 18),
                    content.empty()     ? "unused"
                    : use.lines.empty() ? content
                                        : content + fmt::format(" ({} % full)", (use.fill_permille + 9) / 10),
                    layout.width);
  }
  return text;
}

std::string cut_words(const quantity::Range& length, const quantity::NumberStyle& style) {
  const auto at = [&](std::int64_t base) {
    return show(quantity::Range(quantity::Mixed::from_base(base)), quantity::Dimension::length, style);
  };
  const std::int64_t low = length.low().base(), high = length.high().base();
  return fill("cut.settled", {{"middle", at(low + (high - low) / 2)}, {"low", at(low)}, {"high", at(high)}});
}

std::string cuts_text(const Plan& plan, const Layout& layout) {
  if (plan.cuts.empty()) return "";
  std::string text = head("head.cuts", layout);
  for (const model::Cut& cut : plan.cuts)
    text += hanging("  ",
                    cut.label + ": " +
                        (cut.settled ? cut_words(cut.length, layout.numbers) : std::string(phrase("cut.unsettled"))) +
                        ". " + std::string(phrase("cut.not_yet")) + " " + fill("cut.why", {{"finding", cut.finding}}),
                    layout.width);
  return text;
}

std::string work_text(const Plan& plan, const Layout& layout) {
  if (plan.work.empty()) return "";
  std::string text = head("head.work", layout);
  if (const std::size_t stops = count(plan, model::Verdict::stop); stops > 0)
    text += hanging("  ! ", fill(stops == 1 ? "work.stopped_one" : "work.stopped", {{"count", std::to_string(stops)}}),
                    layout.width);
  std::string phase;
  for (const model::WorkStep& step : plan.work) {
    if (step.phase != phase) {
      phase = step.phase;
      text += "  " + phase + "\n";
    }
    std::string first = "  " + cell(step.mark, 4) +
                        (step.hold_point                            ? "HOLD  "
                         : step.reversible == model::Reversible::no ? "FINAL "
                                                                    : "      ");
    text += hanging(first, step.label + " (" + hours(step.minutes) + ")", layout.width);
    const std::string blank(12, ' ');
    if (step.hold_point) text += hanging(blank, fill("work.evidence", {{"evidence", step.evidence}}), layout.width);
    if (!step.caution.empty()) text += hanging(blank, "! " + step.caution, layout.width);
    if (!step.check.empty()) text += hanging(blank, fill("work.check", {{"check", step.check}}), layout.width);
  }
  std::string total = fill("work.total", {{"hours", hours(plan.minutes)}, {"steps", std::to_string(plan.work.size())}});
  if (plan.rate_hundredths > 0) {
    const std::int64_t cost = (plan.minutes * plan.rate_hundredths + 3000) / 6000;  // hundredths of a minute
    total += " " + fill("work.cost",
                        {{"rate", money(plan.rate_hundredths, plan.currency)}, {"cost", money(cost, plan.currency)}});
  }
  return text + hanging("  ", total, layout.width);
}

std::string choices_text(const Plan& plan, const Layout& layout) {
  if (plan.choices.empty()) return "";
  std::string text = head("head.choices", layout);
  for (const model::OpenChoice& choice : plan.choices)
    text += hanging("  ",
                    choice.label + ": " +
                        fill("finding.open_place_before",
                             {{"mark", choice.before_mark}, {"step", without_stop(choice.before_label)}}),
                    layout.width);
  return text;
}

std::string foot(const Plan& plan, const Layout& layout) {
  return "\n" + hanging("",
                        fmt::format("Made by cotter {}; job {}, catalog {}.", plan.program_version,
                                    plan.job_hash.substr(0, 12), plan.catalog_hash.substr(0, 12)),
                        layout.width);
}

}  // namespace

std::vector<std::string> cautions() {
  std::vector<std::string> out;
  for (const char* key : {"caution.maker", "caution.mechanic", "caution.kill", "caution.law"})
    out.emplace_back(phrase(key));
  return out;
}

std::string verdict_counts(const Plan& plan) {
  std::string text;
  for (const Verdict verdict :
       {Verdict::stop, Verdict::rework, Verdict::measure, Verdict::add, Verdict::accept, Verdict::ok}) {
    const std::size_t number = model::count(plan, verdict);
    if (number > 0) text += fmt::format("{}{} {}", text.empty() ? "" : ", ", number, model::word_for(verdict));
  }
  return text.empty() ? "nothing to say" : text;
}

std::string plan_text(const Plan& plan, const Layout& layout) {
  return title(plan, layout) + cautions_text(layout) + findings_text(plan, layout) + next_text(plan, layout) +
         bill_text(plan, layout) + lines_text(plan, layout) + openings_text(plan, layout) + cuts_text(plan, layout) +
         choices_text(plan, layout) + work_text(plan, layout) + unchecked_text(plan, layout) + foot(plan, layout);
}

std::string bench_list_text(const Plan& plan, const Layout& layout) {
  std::string text = title(plan, layout);
  if (plan.measure_next.empty()) return text + "\n" + hanging("", phrase("next.none"), layout.width);
  return text + next_text(plan, layout) + "\n" + hanging("  ", measure_next_total(plan), layout.width) +
         hanging("  ", phrase("next.log"), layout.width);
}

std::string why_text(const model::Finding& finding, const Layout& layout) {
  const std::string word(model::word_for(finding.verdict));
  std::string text = hanging_bold(word + "  ", word, finding.subject + ": " + finding.rule_label, layout);
  for (const std::string& sentence : sentences(finding, layout.numbers)) text += hanging("  ", sentence, layout.width);
  text += "\n";
  for (const std::string& line : working(finding, layout.numbers))
    text += hanging("  " + line.substr(0, 10), line.substr(10), layout.width);
  return text + "  id        " + finding.id + "\n";
}

}  // namespace cotter::words
