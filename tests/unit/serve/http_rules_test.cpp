#include "serve/http_rules.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace cotter::serve {
namespace {

constexpr unsigned short k_port = 8317;

RequestHead plain(std::string_view target = "/") {
  return {.method = "GET", .target = target, .hosts = {"127.0.0.1:8317"}};
}

int refused_with(const RequestHead& request, unsigned short port = k_port) {
  const auto route = judge(request, port);
  return route ? 0 : route.error().status;
}

struct PathRow {
  std::string_view target;
  Route route;
};

TEST(HttpRules, EachPathHasItsRoute) {
  constexpr PathRow k_rows[] = {{"/", Route::page},
                                {"/?again", Route::page},
                                {"/drawing.svg", Route::drawing},
                                {"/plan.json", Route::plan_json},
                                {"/plan.txt", Route::plan_text},
                                {"/health", Route::health},
                                {"/favicon.svg", Route::icon},
                                {"/favicon.ico", Route::icon}};
  for (const auto& [target, route] : k_rows) {
    const auto judged = judge(plain(target), k_port);
    ASSERT_TRUE(judged) << target;
    EXPECT_EQ(*judged, route) << target;
  }
}

TEST(HttpRules, AnyOtherPathIsNotFound) {
  for (const char* target :
       {"/index.html", "//", "/plan.txt/", "/../plan.txt", "/%2e%2e/etc/passwd", "/PLAN.TXT", "/#"})
    EXPECT_EQ(refused_with(plain(target)), 404) << target;
}

TEST(HttpRules, ATargetThatIsNoPathIsMalformed) {
  for (const char* target : {"", "*", "http://127.0.0.1:8317/", "plan.txt"})
    EXPECT_EQ(refused_with(plain(target)), 400) << target;
}

TEST(HttpRules, PathsLeadBackToTheirRoutes) {
  for (const Route route :
       {Route::page, Route::drawing, Route::plan_json, Route::plan_text, Route::health, Route::icon})
    EXPECT_EQ(judge(plain(path_of(route)), k_port), route) << path_of(route);
}

TEST(HttpRules, OnlyHealthAndIconNeedNoPlan) {
  EXPECT_TRUE(needs_plan(Route::page));
  EXPECT_TRUE(needs_plan(Route::drawing));
  EXPECT_TRUE(needs_plan(Route::plan_json));
  EXPECT_TRUE(needs_plan(Route::plan_text));
  EXPECT_FALSE(needs_plan(Route::health));
  EXPECT_FALSE(needs_plan(Route::icon));
}

struct HostRow {
  std::vector<std::string_view> hosts;
  unsigned short port;
  bool ours;
};

TEST(HttpRules, AnswersOnlyUnderItsOwnNames) {
  const HostRow k_rows[] = {
      {{"127.0.0.1:8317"}, 8317, true},
      {{"localhost:8317"}, 8317, true},
      {{"LocalHost:8317"}, 8317, true},
      {{"[::1]:8317"}, 8317, true},
      {{"localhost"}, 80, true},
      {{"127.0.0.1:80"}, 80, true},
      {{}, 8317, false},
      {{""}, 8317, false},
      {{"localhost"}, 8317, false},
      {{"localhost:8318"}, 8317, false},
      {{"localhost:83170"}, 8317, false},
      {{"localhost.:8317"}, 8317, false},
      {{"workshop.example:8317"}, 8317, false},
      {{"127.0.0.1.workshop.example:8317"}, 8317, false},
      {{"localhost:8317@workshop.example"}, 8317, false},
      {{"127.0.0.1:8317", "127.0.0.1:8317"}, 8317, false},
      {{"127.0.0.1:8317", "workshop.example"}, 8317, false},
  };
  for (const HostRow& row : k_rows) {
    RequestHead request = plain();
    request.hosts = row.hosts;
    EXPECT_EQ(refused_with(request, row.port), row.ours ? 0 : 421)
        << (row.hosts.empty() ? "no host" : row.hosts.front());
  }
}

RC_GTEST_PROP(HttpRules, NoOtherHostIsOurs, (const std::string& host)) {
  RC_PRE(host != "127.0.0.1:8317" && host != "localhost:8317" && host != "[::1]:8317");
  RequestHead request = plain();
  request.hosts = {host};
  RC_ASSERT(refused_with(request) == 421);
}

TEST(HttpRules, AForeignOriginIsRefused) {
  for (const char* origin :
       {"http://workshop.example", "null", "", "https://127.0.0.1:8317", "http://127.0.0.1:8318"}) {
    RequestHead request = plain();
    request.origins = {origin};
    EXPECT_EQ(refused_with(request), 403) << origin;
  }
  RequestHead request = plain();
  request.origins = {"http://localhost:8317"};
  EXPECT_EQ(refused_with(request), 0);
  request.origins = {"http://localhost:8317", "http://localhost:8317"};
  EXPECT_EQ(refused_with(request), 403);
}

TEST(HttpRules, OnlyGetAndHead) {
  for (const char* method : {"POST", "PUT", "DELETE", "OPTIONS", "PATCH", "TRACE", "CONNECT", "get", "BREW"}) {
    RequestHead request = plain();
    request.method = method;
    EXPECT_EQ(refused_with(request), 405) << method;
  }
  RequestHead request = plain();
  request.method = "HEAD";
  EXPECT_EQ(refused_with(request), 0);
}

TEST(HttpRules, NoBodyInAnyForm) {
  RequestHead request = plain();
  request.lengths = {"0"};
  EXPECT_EQ(refused_with(request), 0);
  request.lengths = {"1"};
  EXPECT_EQ(refused_with(request), 413);
  request.lengths = {"0", "7"};
  EXPECT_EQ(refused_with(request), 413);
  request = plain();
  request.transfer_encoding = true;
  EXPECT_EQ(refused_with(request), 400);
}

TEST(HttpRules, AForeignHostLearnsNothingElse) {
  RequestHead request = plain("/no-such-path");
  request.method = "POST";
  request.hosts = {"workshop.example"};
  request.transfer_encoding = true;
  const auto route = judge(request, k_port);
  ASSERT_FALSE(route);
  EXPECT_EQ(route.error().status, 421);
  EXPECT_EQ(route.error().reason, "This page answers only under the address it was started with.");
}

}  // namespace
}  // namespace cotter::serve
