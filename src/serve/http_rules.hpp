#pragma once
// What a request may ask, decided without a socket: which host, which method, which path, and that it brings nothing.

#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace cotter::serve {

enum class Route { page, drawing, plan_json, plan_text, health, icon };

/// Whether an answer to the route needs the job to be planned.
bool needs_plan(Route route);
/// The path a route is served at.
std::string_view path_of(Route route);

/// The parts of a request that decide whether it is answered; each header as often as it was sent.
struct RequestHead {
  std::string_view method;
  std::string_view target;
  std::vector<std::string_view> hosts{};
  std::vector<std::string_view> origins{};
  std::vector<std::string_view> lengths{};  ///< Content-Length
  bool transfer_encoding = false;
};

struct Refusal {
  int status = 0;
  std::string reason;
};

/// The route, or why the request is refused. The name by which the server was called comes first: a page of another
/// site can make a browser connect to this machine under that site's name, and must learn nothing.
/// **Fails with** 421 host not ours, 403 foreign origin, 400 any transfer encoding or a target that is no path,
/// 405 other methods than GET and HEAD, 413 a body, 404 any other path.
tl::expected<Route, Refusal> judge(const RequestHead& request, unsigned short port);

}  // namespace cotter::serve
