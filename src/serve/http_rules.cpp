#include "serve/http_rules.hpp"

#include <algorithm>
#include <array>
#include <cctype>

namespace cotter::serve {
namespace {

struct RoutePath {
  std::string_view path;
  Route route;
};

constexpr RoutePath k_routes[] = {
    {"/", Route::page},
    {"/drawing.svg", Route::drawing},
    {"/plan.json", Route::plan_json},
    {"/plan.txt", Route::plan_text},
    {"/health", Route::health},
    {"/favicon.svg", Route::icon},
    {"/favicon.ico", Route::icon},  // asked for by browsers whatever the page says
};

std::string lower_case(std::string_view text) {
  std::string lower(text);
  for (char& c : lower)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return lower;
}

bool is_our_host(std::string_view host, unsigned short port) {
  constexpr unsigned short k_default_port = 80;
  const std::string asked = lower_case(host);
  return std::ranges::any_of(std::array{"127.0.0.1", "localhost", "[::1]"}, [&](const std::string& name) {
    return asked == name + ":" + std::to_string(port) || (port == k_default_port && asked == name);
  });
}

bool is_our_origin(std::string_view origin, unsigned short port) {
  constexpr std::string_view k_scheme = "http://";
  return origin.starts_with(k_scheme) && is_our_host(origin.substr(k_scheme.size()), port);
}

bool brings_a_body(const std::vector<std::string_view>& lengths) {
  return std::ranges::any_of(lengths, [](std::string_view length) { return length != "0"; });
}

tl::unexpected<Refusal> refuse(int status, std::string reason) {
  return tl::make_unexpected(Refusal{status, std::move(reason)});
}

}  // namespace

bool needs_plan(Route route) {
  return route != Route::health && route != Route::icon;
}

std::string_view path_of(Route route) {
  return std::ranges::find(k_routes, route, &RoutePath::route)->path;
}

tl::expected<Route, Refusal> judge(const RequestHead& request, unsigned short port) {
  if (request.hosts.size() != 1 || !is_our_host(request.hosts.front(), port))
    return refuse(421, "This page answers only under the address it was started with.");
  if (request.origins.size() > 1 || (request.origins.size() == 1 && !is_our_origin(request.origins.front(), port)))
    return refuse(403, "Pages of other sites may not read this one.");
  if (request.transfer_encoding) return refuse(400, "A transfer encoding is not accepted.");
  if (request.method != "GET" && request.method != "HEAD")
    return refuse(405, "This page only shows. Edit the job's file to change something.");
  if (brings_a_body(request.lengths)) return refuse(413, "A request must not bring a body.");
  if (!request.target.starts_with('/')) return refuse(400, "The address must be a path.");
  const std::string_view path = request.target.substr(0, request.target.find('?'));
  const auto* found = std::ranges::find(k_routes, path, &RoutePath::path);
  if (found == std::end(k_routes)) return refuse(404, "There is nothing at this address.");
  return found->route;
}

}  // namespace cotter::serve
