// make_plan of the demonstration bicycle with catalog and job loaded, and what loading them costs.
#include <benchmark/benchmark.h>
#include <string>

#include "document/read_catalog.hpp"
#include "document/read_job.hpp"
#include "plan/make_plan.hpp"
#include "words/plan_words.hpp"

namespace {

using namespace cotter;

const std::string k_root = COTTER_SOURCE_DIR;

const model::Catalog& catalog() {
  static const model::Catalog k_catalog = document::read_catalog({k_root + "/catalog"}).value();
  return k_catalog;
}

const document::LoadedJob& job() {
  static const document::LoadedJob k_job = document::load_job(k_root + "/examples/all_road.yaml", catalog()).value();
  return k_job;
}

const document::LoadedJob& steel_job() {
  static const document::LoadedJob k_job = document::load_job(k_root + "/examples/steel_road.yaml", catalog()).value();
  return k_job;
}

void make_plan_of(benchmark::State& state, const document::LoadedJob& job) {
  const plan::Stamp stamp{"bench", job.hash};
  for (auto _ : state) benchmark::DoNotOptimize(plan::make_plan(job.job, catalog(), stamp));
}

void make_plan_of_the_example(benchmark::State& state) {
  make_plan_of(state, job());
}
BENCHMARK(make_plan_of_the_example)->Unit(benchmark::kMillisecond);

void make_plan_of_the_steel_example(benchmark::State& state) {
  make_plan_of(state, steel_job());
}
BENCHMARK(make_plan_of_the_steel_example)->Unit(benchmark::kMillisecond);

void read_the_catalog(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(document::read_catalog({k_root + "/catalog"}));
}
BENCHMARK(read_the_catalog)->Unit(benchmark::kMillisecond);

void read_the_job(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(document::load_job(k_root + "/examples/all_road.yaml", catalog()));
}
BENCHMARK(read_the_job)->Unit(benchmark::kMillisecond);

void plan_in_words(benchmark::State& state) {
  const model::Plan plan = plan::make_plan(job().job, catalog(), {"bench", job().hash});
  for (auto _ : state) benchmark::DoNotOptimize(words::plan_text(plan));
}
BENCHMARK(plan_in_words)->Unit(benchmark::kMillisecond);

}  // namespace
