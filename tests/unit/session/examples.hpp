#pragma once
// The example jobs as documents that a test can change, and their plans.

#include <map>
#include <string>

#include "document/node.hpp"
#include "model/catalog.hpp"
#include "model/plan.hpp"

namespace cotter::session {

/// The shipped catalog, read once.
const model::Catalog& catalog();
document::Node example(const std::string& name);

/// The plan of a job document; a test fails with what the reader says when it is refused.
model::Plan plan_of(const document::Node& job);
/// What the reader says against a job document; empty when nothing.
std::string refusal_of(const document::Node& job);

const model::Finding* find(const model::Plan& plan, const std::string& id);
/// Verdict word by finding id.
std::map<std::string, std::string> verdicts(const model::Plan& plan);

/// Takes an entry out of a map node; nothing when it is not there.
void take_out(document::Node& map, const std::string& key);
/// Puts a text entry into a map node, in the place of one that is there.
void put(document::Node& map, const std::string& key, document::Node value);
/// The entry of a place as a map, `{part: ...}` written out where the job has the short form.
document::Node& place(document::Node& job, const std::string& name);
/// A part that the job itself writes.
document::Node& own_part(document::Node& job, const std::string& id);
/// Replaces a value of a place: `values: {feature.dimension: {value: text, measured: ...}}`.
void measure(document::Node& job, const std::string& ref, const std::string& text);
void assume(document::Node& job, const std::string& ref, const std::string& text);

}  // namespace cotter::session
