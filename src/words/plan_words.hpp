#pragma once
// A whole plan as text for a terminal or a plain file.

#include <string>
#include <vector>

#include "model/plan.hpp"
#include "quantity/text.hpp"

namespace cotter::words {

enum class Emphasis { none, bold };

struct Layout {
  int width = 100;                     ///< columns; text is wrapped, tables keep their shape down to 60
  Emphasis emphasis = Emphasis::none;  ///< bold heads and verdict words; never the only carrier of a meaning
  quantity::NumberStyle numbers;
};

/// The cautions that stand at the head of every plan, page and paper.
std::vector<std::string> cautions();

std::string plan_text(const model::Plan& plan, const Layout& layout = {});

/// What to measure next by itself, for the bench: the plan's list, and how long all of it takes.
std::string bench_list_text(const model::Plan& plan, const Layout& layout = {});

/// One finding with its whole working, for `cotter why`.
std::string why_text(const model::Finding& finding, const Layout& layout = {});

/// "1 stop, 2 measure, 40 ok".
std::string verdict_counts(const model::Plan& plan);

}  // namespace cotter::words
