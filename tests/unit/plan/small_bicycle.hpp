#pragma once
// The smallest bicycle that has every kind of planning problem, built in code: tests of plan do not read documents.
// A shell takes a cup (fit), a spindle carries shell, cup and spacers (stack), a lever and a brake are joined by a hose
// (route), five steps are in order (sequence).

#include <string>

#include "model/catalog.hpp"
#include "model/job.hpp"
#include "model/plan.hpp"
#include "plan/make_plan.hpp"

namespace cotter::plan {

constexpr std::int64_t k_mm = 1'000'000;

quantity::Value length(std::int64_t nominal_um, std::int64_t plus_minus_um = 0,
                       quantity::OriginKind kind = quantity::OriginKind::maker);
model::Interface interface_of(const std::string& id, const std::string& kind,
                              std::map<std::string, quantity::Value> values);

struct SmallBicycle {
  model::Catalog catalog;
  model::Job job;

  SmallBicycle();
  model::Rule& rule();
  model::StackForm& form();
  /// A part of the job, by the place that it fills.
  model::Part& part(const std::string& place);
  void empty(const std::string& place);
  model::Plan plan() const;
};

/// The finding whose id begins with `id`; a test fails when there is none.
const model::Finding& finding_in(const model::Plan& plan, const std::string& id);

}  // namespace cotter::plan
