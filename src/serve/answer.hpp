#pragma once
// From a route and the planned job to the answer.

#include <string>

#include "serve/http_rules.hpp"
#include "serve/reply.hpp"
#include "session/session.hpp"

namespace cotter::serve {

/// The answer to a route that needs the plan. The page always comes, with what is wrong on it; a drawing or plan that
/// could not be made is 404 with the reason.
Reply answer(Route route, const session::Sheet& sheet);

/// The answer to a route that needs no plan.
Reply answer(Route route);

/// The answer to a bug: says nothing of its cause but the number under which it is logged.
Reply bug_answer(unsigned report);

}  // namespace cotter::serve
