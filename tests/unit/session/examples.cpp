#include "examples.hpp"

#include <algorithm>
#include <stdexcept>

#include "document/parse.hpp"
#include "document/read_catalog.hpp"
#include "document/read_job.hpp"
#include "plan/make_plan.hpp"
#include "session/opened.hpp"

namespace cotter::session {

using document::Node;

const model::Catalog& catalog() {
  static const model::Catalog read = [] {
    auto opened = open_catalog({COTTER_SOURCE_DIR "/catalog"});
    if (!opened) throw std::runtime_error(trouble_text(opened.error()));
    return *std::move(opened);
  }();
  return read;
}

Node example(const std::string& name) {
  auto parsed = document::parse_file(COTTER_SOURCE_DIR "/examples/" + name + ".yaml");
  if (!parsed) throw std::runtime_error(trouble_text(parsed.error()));
  return *std::move(parsed);
}

model::Plan plan_of(const Node& job) {
  const auto read = document::read_job(job, "job.yaml", catalog());
  if (!read) throw std::runtime_error(trouble_text(read.error()));
  return plan::make_plan(*read, catalog(), {"0.0.0", "the same for all"});
}

std::string refusal_of(const Node& job) {
  const auto read = document::read_job(job, "job.yaml", catalog());
  return read ? "" : trouble_text(read.error());
}

const model::Finding* find(const model::Plan& plan, const std::string& id) {
  const auto found =
      std::find_if(plan.findings.begin(), plan.findings.end(), [&](const model::Finding& one) { return one.id == id; });
  return found == plan.findings.end() ? nullptr : &*found;
}

std::map<std::string, std::string> verdicts(const model::Plan& plan) {
  std::map<std::string, std::string> out;
  for (const model::Finding& finding : plan.findings) out[finding.id] = model::word_for(finding.verdict);
  return out;
}

void take_out(Node& map, const std::string& key) {
  std::erase_if(map.entries(), [&](const Node::Entry& entry) { return entry.key == key; });
}

void put(Node& map, const std::string& key, Node value) {
  if (Node* there = map.find(key))
    *there = std::move(value);
  else
    map.set(key, std::move(value));
}

Node& place(Node& job, const std::string& name) {
  Node& entry = *job.find("places")->find(name);
  if (!entry.is_map()) entry = Node::map().set("part", entry);
  return entry;
}

Node& own_part(Node& job, const std::string& id) {
  for (Node& part : job.find("parts")->items())
    if (part.find("id")->scalar() == id) return part;
  throw std::runtime_error("the job has no part " + id);
}

namespace {

void put_value(Node& job, const std::string& ref, Node value) {
  const std::size_t dot = ref.find('.');
  Node& entry = place(job, ref.substr(0, dot));
  if (entry.find("values") == nullptr) entry.set("values", Node::map());
  put(*entry.find("values"), ref.substr(dot + 1), std::move(value));
}

}  // namespace

void measure(Node& job, const std::string& ref, const std::string& text) {
  const Node who = Node::map()
                       .set("by", Node::text("A. Builder"))
                       .set("with", Node::text("papers"))  // of no resolution, so that an exact value stays exact
                       .set("on", Node::text("2026-05-04"));
  put_value(job, ref, Node::map().set("value", Node::text(text)).set("measured", who));
}

void assume(Node& job, const std::string& ref, const std::string& text) {
  put_value(job, ref, Node::map().set("value", Node::text(text)).set("assumed", Node::text("for a test")));
}

}  // namespace cotter::session
