#include "words/en/phrases.hpp"

#include <array>

namespace cotter::words::en {
namespace {

constexpr std::array k_phrases = std::to_array<Phrase>({
    // What a law's number is called, and what it is when it lies outside its window.
    {"number.bore_on_shaft", "play"},
    {"number.difference", "difference"},
    {"number.at_most", "room left"},
    {"number.at_least", "reserve"},
    {"number.range_contains", "reserve inside the range"},
    {"number.thread", "play between the threads"},
    {"number.equal_pattern", "difference of the bolt circles"},
    {"number.equal_family", "kinds"},
    {"number.engagement", "thread engaged"},
    {"number.radial_room", "room left around the shaft"},
    {"number.equal_angle", "difference of the angles"},
    {"number.overlap", "cover at the shorter end"},
    {"number.stack", "result"},
    {"low.bore_on_shaft", "{missing} too tight"},
    {"high.bore_on_shaft", "{missing} too loose"},
    {"low", "{missing} too little"},
    {"high", "{missing} too much"},
    {"low.engagement", "{missing} too short"},
    {"high.engagement", "{missing} too long"},
    {"low.at_most", "{missing} too large"},
    {"low.at_least", "{missing} short"},
    {"low.range_contains", "{missing} outside the range"},
    {"window.both", "from {from} to {to}"},
    {"window.from", "at least {from}"},
    {"window.to", "at most {to}"},

    // Findings in one sentence.
    {"finding.number", "{values}: {number} {result}, must be {window}."},
    {"finding.number_only", "{number} {result}, must be {window}."},
    {"finding.beside_wish", "{values}: {number} {result} is allowed ({window}), but common practice is {wish}."},
    {"finding.beside_wish_only", "{values}: {number} {result}; common practice is {wish}."},
    {"finding.length", "{values}: {number} {result}."},
    {"finding.rests_on", "Rests on a value nobody has measured: {names}."},
    {"finding.rests_on_guarded",
     "Not ok before it is measured, because it rests on an assumed or unknown value: {names}."},
    {"finding.unlike", "A {a} and a {b} do not mate: no rule joins these two kinds."},
    {"bridge.proposal",
     "Proposed, not chosen: {chain}, {price} together. Read the paper of each piece before it is ordered (proposals "
     "tried: "
     "{proposals})."},
    {"bridge.refused",
     "The cheapest way round would be {chain}, {price}; it will not do (proposals tried: {proposals})."},
    {"bridge.refused_stack", "With it this no longer holds: {what}."},
    {"bridge.refused_tower", "Brakes, steering, wheels and posts take one adapter at the most."},
    {"bridge.refused_other", "This piece joins a second pair as well, and there is no place for that: {what}."},
    {"bridge.none", "No chain of adapters in the catalog joins the two."},
    {"bridge.open_joint", "Whether it fits is open until the sizes below are measured."},
    {"bridge.open_stack", "With it this is open: {what}."},
    {"bridge.open_length", "Nothing says where its length adds up: {what}. Try it dry first."},
    {"bridge.composite", "One side is composite: its maker must allow the piece."},
    {"add.proposed", " A proposal: not in the list of parts."},
    {"finding.neither",
     "Neither the part in place \"{a}\" nor the one in place \"{b}\" says how they mate. Write the feature of both "
     "down with its dimensions, or ? for what nobody knows."},
    {"finding.lacks",
     "The part in place \"{with}\" offers a {kind}; the part in place \"{without}\" has nothing to meet it."},
    {"finding.feature_unsaid",
     "The part in place \"{place}\" does not say {what}; until it does, nothing that hangs on it can be judged. It can "
     "be: {kinds}."},
    {"finding.feature_other", "The part in place \"{place}\" has a {kind}; this bicycle can take: {kinds}."},
    {"finding.mismatch", "Differs: {list}."},
    {"finding.missing_value",
     "The part in place \"{place}\" states no {dimension}; without it this cannot be judged. Write it down, or write ? "
     "to say that nobody knows it."},
    {"finding.open_place", "Nothing chosen yet for: {place}."},
    {"finding.open_place_before", "choose before step {mark}, \"{step}\""},
    {"finding.stack_open_place", "Cannot be computed before the place is filled: {place}."},
    {"finding.accepted", "Accepted by {by}: {reason}."},
    {"add.piece", "Add {count} x {what}{dimension}, {where}."},
    {"add.short", "Add {what}."},
    {"add.in_kit", " In the drawer."},
    {"add.to_order", " To be ordered."},
    {"measure.what", "Measure {label}: {feature}; between: {faces}; tool: {tool}, reading {resolution} or finer."},
    {"measure.what_short", "Measure {label}."},
    {"measure.no_tool", "{kind} (none in this shop: borrow, buy or send out)"},
    {"measure.between", " {from} to {to}: this check holds."},
    {"measure.from", " {from} or more: this check holds."},
    {"measure.to", " {to} or less: this check holds."},
    {"measure.exactly", " {from}: this check holds."},
    {"measure.below", " Below {from}: {verdict}."},
    {"measure.above", " Above {to}: {verdict}."},
    {"measure.below_pieces", " Below {from}, with these pieces: {verdict}."},
    {"measure.above_pieces", " Above {to}, with these pieces: {verdict}."},
    {"measure.else", " Anything between needs the other values too."},
    {"measure.confirm", " Whatever it measures settles it."},
    {"rework.what", "Permitted change: {operation}."},
    {"probability", "Chance that it holds, by the stated tolerances: {percent} %."},
    {"may_pass.nobody", "Nobody may pass this limit."},
    {"may_pass.mechanic", "A mechanic may accept it with a written reason."},
    {"may_pass.maker", "Only the maker's paper for this very part may pass it."},

    // Lines.
    {"route.no_way",
     "No way for: {lines}. Taken together they cannot all run; leave any one of them out and the rest can."},
    {"route.one_no_way", "No way for {lines}."},
    {"route.too_small", "{line}: what must pass is {needs}, {opening} is {clear}: {missing} too large."},
    {"route.contested", "{line} can only go through {opening} ({clear}), where there is no room beside the others."},
    {"route.enlarge", "Enlarge {opening} by {step} to {clear}; permitted up to {most} ({paper})."},
    {"route.not_permitted", "{opening} would need {step} more; not permitted; ask the maker in writing."},
    {"route.limit",
     "The search stopped at its limit of steps; this way works, but a cheaper one may exist (at least {bound})."},
    {"route.unproven", "The search stopped at its limit of steps before it found a way or proved that there is none."},
    {"route.ok", "All {count} lines have a way; no cheaper arrangement exists (proven)."},
    {"route.assumed",
     "Rests on an assumed or unknown size: {names}. Gauge it with pins before the first line is pulled."},
    {"route.length", "Runs {way} mm (computed, good to 20 mm until a string has been measured)."},
    {"route.choose", "choose {length} mm"},
    {"route.start", "start with {length} mm; final cut at the lever after the steering sweep"},
    {"route.start_housing",
     "start with {length} mm; final cut when both its ends are fixed and the bar turns to its stops"},
    {"route.fluid_place", "The line ends on a device whose place is open: {place}."},
    {"sequence.circle", "No order of work is possible; these demands wait for each other."},
    {"sequence.no_pulls",
     "The pulls of the lines are not among them, because no way has been found for the lines yet."},
    {"sequence.unfinished", "The search for an order of work stopped at its limit of steps, with nothing proven."},
    {"sequence.after", "\"{a}\" comes after \"{b}\"."},
    {"sequence.needs", "\"{a}\" needs this open: {access}; \"{b}\" closes it."},
    {"sequence.opens", "\"{a}\" needs this open: {access}; only \"{b}\" opens it."},
    {"sequence.one_of", "\"{a}\" needs one of these open: {access}."},
    {"sequence.ok", "All {count} steps have an order in which nothing has to come apart again."},

    // Steps and cuts.
    {"cut.not_yet", "Not to be sawn before its hold point: two people measure from that face and agree."},
    {"cut.unsettled", "no length yet, because it rests on something that is not measured or not decided"},
    {"cut.why", "Working: cotter why JOB {finding}"},
    {"work.evidence", "Opens only on: {evidence}."},
    {"work.check", "Right when: {check}"},
    {"work.cost", "At {rate} an hour: {cost}."},
    {"work.total",
     "{steps} steps, {hours} of clean bench time (common practice, no source; replace with your own log)."},

    {"connection.missing", "No line of this job joins these two: {a}, {b}."},
    {"connection.guarded",
     "A brake that nothing works is no brake. The pairing of lever and brake is judged for this connection only; a "
     "bicycle braked the other way round needs its own template."},

    // Heads and cautions.
    {"caution.head", "Before anything else"},
    {"caution.maker", "The maker's instruction and limits for each part go before anything printed here."},
    {"caution.mechanic", "A qualified mechanic checks the bicycle before its first ride."},
    {"caution.kill",
     "Brakes, steering and composite parts can kill when they are wrong. Composite is never drilled, filed or reamed "
     "beyond its maker's paper."},
    {"caution.law", "The rules of the road and of products in your country apply; this plan certifies nothing."},
    {"head.verdicts", "Findings"},
    {"head.ok_folded", "{count} more are ok."},
    {"head.bill", "Parts"},
    {"head.lines", "Lines"},
    {"head.openings", "Openings"},
    {"head.cuts", "Cuts"},
    {"head.work", "Order of work"},
    {"head.choices", "Open choices"},
});

}  // namespace

std::span<const Phrase> phrases() {
  return k_phrases;
}

}  // namespace cotter::words::en
