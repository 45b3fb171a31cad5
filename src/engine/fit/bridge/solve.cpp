#include "engine/fit/bridge/solve.hpp"

namespace cotter::engine::fit::bridge {
namespace {

void add_proof(Proof& all, const Proof& more) {
  all.settled += more.settled;
  all.candidates += more.candidates;
  all.least_left = more.least_left;
}

Reason reason_for(const Search& widest, const Result& result) {
  if (result.proposals > 0) return Reason::all_refused;
  if (!widest.start_meets_something()) return Reason::start_meets_nothing;
  if (!widest.goal_meets_something()) return Reason::goal_meets_nothing;
  return Reason::too_many_pieces;
}

}  // namespace

Result solve(const Index& index, const Query& query, const Accept& accept, const Options& options) {
  Result result;
  for (const Ask ask : {Ask::certain, Ask::possible}) {
    Search search(index, query, ask, options.node_limit);
    while (result.proposals < options.most_proposals) {
      auto chain = search.next();
      if (!chain) break;
      ++result.proposals;
      if (!accept(*chain)) continue;
      result.status = Status::found;
      result.chain = std::move(chain);
      break;
    }
    add_proof(result.proof, search.proof());
    if (result.chain) return result;
    if (search.limit_reached() || result.proposals >= options.most_proposals) {
      result.status = Status::unfinished;
      return result;
    }
    if (ask == Ask::possible) result.reason = reason_for(search, result);
  }
  return result;
}

Result solve(const Index& index, const Query& query, const Options& options) {
  return solve(index, query, [](const Chain&) { return true; }, options);
}

}  // namespace cotter::engine::fit::bridge
