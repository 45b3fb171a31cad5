// CBC on the columns, through its C interface (with its presolve, cuts and heuristics).
#include <cmath>
#include <coin/Cbc_C_Interface.h>

#include "answer.hpp"
#include "mip.hpp"

namespace route_peers {

namespace {

/// The rows column by column, as CBC wants them.
struct Columns {
  std::vector<int> starts, rows;
  std::vector<double> factors;
};

Columns by_column(const Mip& mip) {
  std::vector<std::vector<std::pair<int, double>>> entries(mip.cost.size());
  for (std::size_t r = 0; r < mip.rows.size(); ++r)
    for (const auto& [x, factor] : mip.rows[r].terms)
      entries[static_cast<std::size_t>(x)].emplace_back(static_cast<int>(r), factor);
  Columns columns{{0}, {}, {}};
  for (const auto& column : entries) {
    for (const auto& [row, factor] : column) {
      columns.rows.push_back(row);
      columns.factors.push_back(factor);
    }
    columns.starts.push_back(static_cast<int>(columns.rows.size()));
  }
  return columns;
}

}  // namespace

Answer solve_with_cbc(const Model& model, double seconds) {
  if (model.hopeless) return {Verdict::infeasible, {}};
  const Mip mip = make_mip(model);
  const Columns columns = by_column(mip);
  const std::vector<double> low(mip.cost.size(), 0), high(mip.cost.size(), 1);
  std::vector<double> least, most;
  for (const Row& row : mip.rows) {
    least.push_back(row.least <= -1e9 ? -HUGE_VAL : row.least);
    most.push_back(row.most);
  }
  Cbc_Model* cbc = Cbc_newModel();
  Cbc_loadProblem(cbc, static_cast<int>(mip.cost.size()), static_cast<int>(mip.rows.size()), columns.starts.data(),
                  columns.rows.data(), columns.factors.data(), low.data(), high.data(), mip.cost.data(), least.data(),
                  most.data());
  for (int x = 0; x < static_cast<int>(mip.cost.size()); ++x) Cbc_setInteger(cbc, x);
  Cbc_setParameter(cbc, "log", "0");
  Cbc_setParameter(cbc, "threads", "0");
  Cbc_setParameter(cbc, "ratioGap", "0");
  Cbc_setParameter(cbc, "allowableGap", "0.999");  // costs are whole numbers
  Cbc_setParameter(cbc, "seconds", std::to_string(seconds).c_str());
  Cbc_solve(cbc);
  Answer answer;
  if (Cbc_isProvenInfeasible(cbc) != 0)
    answer.verdict = Verdict::infeasible;
  else if (Cbc_isProvenOptimal(cbc) != 0)
    answer = {Verdict::optimal, std::llround(Cbc_getObjValue(cbc))};
  Cbc_deleteModel(cbc);
  return answer;
}

}  // namespace route_peers
