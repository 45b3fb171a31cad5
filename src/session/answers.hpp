#pragma once
// Pieces of answers that several commands share. Inside of session.

#include <string>

#include "document/diagnostic.hpp"
#include "model/plan.hpp"
#include "session/session.hpp"
#include "words/plan_words.hpp"

namespace cotter::session {

Answer refused(std::string trouble);
Answer refused(const document::Diagnostics& diagnostics);

Outcome outcome_of(const model::Plan& plan);
words::Layout layout_of(const Report& report);

/// No finding has this name or beginning; names the nearest one.
std::string no_such_finding(const model::Plan& plan, const std::string& wanted);

}  // namespace cotter::session
