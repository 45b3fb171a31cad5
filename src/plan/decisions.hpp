#pragma once
// Standing decisions on findings: which still hold, and which never could.

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "model/finding.hpp"
#include "model/job.hpp"

namespace cotter::plan {

/// Whether a named person may sign for this finding, and else why not (docs/decisions/0006).
///
/// **Method** What somebody has signed for is signed for. What is guarded, undecided, unlike or missing: never. A
/// finding that says `accept` lies within every limit and may be signed for. One that says stop, rework or add may be
/// passed when it is a number outside a window that guards nothing, that the catalog lets a mechanic pass, and that
/// rests on vouched values only.
model::Acceptance acceptance(const model::Finding& finding);

/// Whether a finding says whether two things are made for each other: there is no amount that one could pass.
bool compares_kinds(const model::Finding& finding);

/// Which end of its window a finding misses.
model::Passes passes_of(const model::Finding& finding);

/// Whether a name or a reason says nothing: no character, or blanks only.
bool is_blank(std::string_view text);

/// A finding id with every old name of a place replaced by the name now: `rule@old.x,b.y` -> `rule@new.x,b.y`.
std::string renamed(const std::string& id, const std::map<std::string, std::string>& aliases);

/// Lets a limit pass: the finding says `accept`, what it said before stays in sight, what it asked for is asked no
/// more. An adapter that was proposed goes, with every fact after the proposal.
void let_pass(model::Finding& finding);

/// Marks each finding that a decision of the sheet or the journal covers; of several the latest. A decision holds while
/// the finding's identity stays (through the job's aliases) and its margin is not worse than when it was signed. One
/// that passes a limit names the end it passes, and turns the finding into `accept`; what it asked for is asked no
/// more.
void apply_decisions(const model::Job& job, std::vector<model::Finding>& findings);

}  // namespace cotter::plan
