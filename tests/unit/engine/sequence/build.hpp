#pragma once
// Short ways to write orders of work in tests.

#include <string>
#include <vector>

#include "engine/sequence/check.hpp"
#include "engine/sequence/solve.hpp"

namespace cotter::engine::sequence {

using Names = std::vector<std::string>;

/// Ids of the order, joined by blanks.
inline std::string written(const Problem& problem, const std::vector<std::size_t>& order) {
  std::string text;
  for (const std::size_t index : order) text += (text.empty() ? "" : " ") + problem.operations[index].id;
  return text;
}

/// One reason as "a before b (why)".
inline std::string written(const Problem& problem, const Reason& reason) {
  std::string accesses;
  for (const std::size_t access : reason.accesses) {
    accesses += (accesses.empty() ? "" : "|") + problem.accesses[access].id;
  }
  const std::string earlier = problem.operations[reason.earlier].id, later = problem.operations[reason.later].id;
  switch (reason.kind) {
    case Reason::Kind::after:
      return earlier + " before " + later;
    case Reason::Kind::needs_before_close:
      return earlier + " before " + later + " closes " + accesses;
    case Reason::Kind::opens_before_need:
      return earlier + " opens " + accesses + " before " + later;
    case Reason::Kind::needs_one_of:
      return later + " needs " + accesses;
  }
  return "";
}

inline Names written(const Problem& problem, const std::vector<Reason>& reasons) {
  Names list;
  for (const Reason& reason : reasons) list.push_back(written(problem, reason));
  return list;
}

}  // namespace cotter::engine::sequence
