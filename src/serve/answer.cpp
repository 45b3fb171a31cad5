#include "serve/answer.hpp"

#include "serve/page.hpp"

namespace cotter::serve {
namespace {

Reply part(std::string_view type, const std::string& content, const session::Sheet& sheet) {
  if (content.empty() || sheet.outcome == session::Outcome::bad_input)
    return {.status = 404, .body = "The job could not be planned, so this is not there.\n\n" + sheet.trouble};
  return {.type = std::string(type), .body = content};
}

}  // namespace

Reply answer(Route route, const session::Sheet& sheet) {
  switch (route) {
    case Route::page:
      return {.type = "text/html; charset=utf-8", .body = page(sheet)};
    case Route::drawing:
      return part("image/svg+xml; charset=utf-8", sheet.drawing, sheet);
    case Route::plan_json:
      return part("application/json", sheet.json, sheet);
    case Route::plan_text:
      return part("text/plain; charset=utf-8", sheet.plan, sheet);
    case Route::health:
    case Route::icon:
      break;
  }
  return answer(route);
}

Reply answer(Route route) {
  if (route == Route::icon) return {.type = "image/svg+xml; charset=utf-8", .body = std::string(icon())};
  return sentence(200, "ok");
}

Reply bug_answer(unsigned report) {
  return {.status = 500, .type = "text/html; charset=utf-8", .body = bug_page(report)};
}

}  // namespace cotter::serve
