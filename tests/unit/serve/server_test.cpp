// The server from outside, over real sockets of this machine.

#include <atomic>
#include <csignal>
#include <future>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <mutex>
#include <thread>

#include "loopback_client.hpp"
#include "serve/serve.hpp"

namespace cotter::serve {
namespace {

using namespace std::chrono_literals;
using std::chrono::steady_clock;
using testing::Contains;
using testing::EndsWith;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

session::Sheet sheet() {
  return {.outcome = session::Outcome::done,
          .title = "Trial",
          .drawing = "<svg></svg>\n",
          .plan = "the plan\n",
          .json = "{}\n",
          .trouble = "",
          .cautions = {}};
}

/// A server on a thread of its own, stopped at the end of the test.
class Running {
 public:
  explicit Running(Provider provider = sheet, Options options = {}) : provider_(std::move(provider)) {
    options.stop = source_.get_token();
    options.log = [this](const std::string& line) {
      const std::scoped_lock lock(mutex_);
      lines_.push_back(line);
    };
    std::promise<std::string> ready;
    auto address = ready.get_future();
    thread_ = std::thread([this, options, ready = std::move(ready)]() mutable {
      result_ = serve(provider_, options, [&](const std::string& at) { ready.set_value(at); });
    });
    address_ = address.get();
    port_ = static_cast<unsigned short>(std::stoi(address_.substr(address_.rfind(':') + 1)));
  }
  ~Running() {
    if (thread_.joinable()) stop();
  }
  Running(const Running&) = delete;
  Running& operator=(const Running&) = delete;

  unsigned short port() const { return port_; }
  const std::string& address() const { return address_; }

  /// How long the server took to end.
  std::chrono::milliseconds stop() {
    const auto begin = steady_clock::now();
    source_.request_stop();
    return join(begin);
  }
  std::chrono::milliseconds join(steady_clock::time_point begin) {
    thread_.join();
    EXPECT_TRUE(result_);
    return std::chrono::duration_cast<std::chrono::milliseconds>(steady_clock::now() - begin);
  }
  std::vector<std::string> lines() {
    const std::scoped_lock lock(mutex_);
    return lines_;
  }

  std::string request(std::string_view first_line, std::string_view more = "") const {
    return std::string(first_line) + " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port_) + "\r\n" +
           std::string(more) + "\r\n";
  }
  std::string ask(std::string_view first_line, std::string_view more = "") const {
    Client client(port_);
    client.send(request(first_line, std::string(more) + "Connection: close\r\n"));
    return client.read_all();
  }

 private:
  Provider provider_;
  std::stop_source source_;
  std::mutex mutex_;
  std::vector<std::string> lines_;
  tl::expected<void, std::string> result_;
  std::string address_;
  unsigned short port_ = 0;
  std::thread thread_;
};

TEST(Serve, GivesThePageAndItsParts) {
  Running server;
  EXPECT_EQ(server.address(), "http://127.0.0.1:" + std::to_string(server.port()) + "/");
  const std::string page = server.ask("GET /");
  EXPECT_THAT(page, StartsWith("HTTP/1.1 200 OK\r\n"));
  EXPECT_THAT(page, HasSubstr("Content-Type: text/html; charset=utf-8\r\n"));
  EXPECT_THAT(page, HasSubstr("Content-Security-Policy: default-src 'none';"));
  EXPECT_THAT(page, EndsWith("</html>\n"));
  EXPECT_THAT(server.ask("GET /drawing.svg"), EndsWith("\r\n\r\n<svg></svg>\n"));
  EXPECT_THAT(server.ask("GET /plan.txt"), EndsWith("\r\n\r\nthe plan\n"));
  EXPECT_THAT(server.ask("GET /plan.json"), EndsWith("\r\n\r\n{}\n"));
  EXPECT_THAT(server.ask("GET /health"), EndsWith("\r\n\r\nok\n"));
  EXPECT_THAT(server.ask("GET /favicon.ico"), HasSubstr("Content-Type: image/svg+xml"));
  EXPECT_THAT(server.ask("GET /other"), StartsWith("HTTP/1.1 404 Not Found\r\n"));
}

TEST(Serve, HeadGivesTheHeadOfGetAndNoBody) {
  Running server;
  const std::string head = server.ask("HEAD /plan.txt");
  EXPECT_THAT(head, StartsWith("HTTP/1.1 200 OK\r\n"));
  EXPECT_THAT(head, HasSubstr("Content-Length: 9\r\n"));
  EXPECT_THAT(head, EndsWith("\r\n\r\n"));
}

TEST(Serve, PlansAnewForEachPageAndNeverForHealth) {
  std::atomic<int> planned = 0;
  Running server([&] {
    session::Sheet now = sheet();
    now.title = "Trial " + std::to_string(++planned);
    return now;
  });
  EXPECT_THAT(server.ask("GET /"), HasSubstr("<h1>Trial 1</h1>"));
  server.ask("GET /health");
  EXPECT_THAT(server.ask("GET /"), HasSubstr("<h1>Trial 2</h1>"));
  EXPECT_EQ(planned, 2);
}

TEST(Serve, RefusesAForeignHost) {
  std::atomic<int> planned = 0;
  Running server([&] {
    ++planned;
    return sheet();
  });
  Client client(server.port());
  client.send("GET / HTTP/1.1\r\nHost: workshop.example\r\n\r\n");
  const std::string reply = client.read_all();
  EXPECT_THAT(reply, StartsWith("HTTP/1.1 421 Misdirected Request\r\n"));
  EXPECT_THAT(reply, Not(HasSubstr("the plan")));
  Client old(server.port());
  old.send("GET / HTTP/1.0\r\n\r\n");
  EXPECT_THAT(old.read_all(), StartsWith("HTTP/1.1 421 "));
  EXPECT_EQ(planned, 0);
}

TEST(Serve, RefusesWhatARequestMustNotBring) {
  Running server;
  EXPECT_THAT(server.ask("POST /"), HasSubstr("Allow: GET, HEAD\r\n"));
  EXPECT_THAT(server.ask("POST /", "Content-Length: 3\r\n"), StartsWith("HTTP/1.1 405 "));
  EXPECT_THAT(server.ask("GET /", "Content-Length: 3\r\n"), StartsWith("HTTP/1.1 413 "));
  EXPECT_THAT(server.ask("GET /", "Transfer-Encoding: gzip\r\nContent-Length: 0\r\n"), StartsWith("HTTP/1.1 400 "));
  EXPECT_THAT(server.ask("GET /", "Transfer-Encoding: chunked\r\n"), StartsWith("HTTP/1.1 400 "));
  EXPECT_THAT(server.ask("GET /", "Origin: http://workshop.example\r\n"), StartsWith("HTTP/1.1 403 "));
  EXPECT_THAT(server.ask("GET /", "Content-Length: -2\r\n"), StartsWith("HTTP/1.1 400 "));
}

TEST(Serve, RefusesALongHeadAndSaysSo) {
  Running server;
  const std::string filler(20'000, 'x');
  EXPECT_THAT(server.ask("GET /", "X-Filler: " + filler + "\r\n"),
              StartsWith("HTTP/1.1 431 Request Header Fields Too Large\r\n"));
  EXPECT_THAT(server.ask("GET /" + filler), StartsWith("HTTP/1.1 431 "));
  EXPECT_THAT(server.ask("GET /health", "X-Filler: " + std::string(8'000, 'x') + "\r\n"), StartsWith("HTTP/1.1 200 "));
}

TEST(Serve, AnswersGarbageWith400) {
  Running server;
  Client client(server.port());
  client.send("\x16\x03\x01\x02 this is no request\r\n\r\n");
  EXPECT_THAT(client.read_all(), StartsWith("HTTP/1.1 400 Bad Request\r\n"));
}

TEST(Serve, NothingAClientWroteReachesTheLog) {
  Running server;
  server.ask("GET /secret", "Origin: http://secret.example\r\n");
  server.ask("GET /health?secret");
  server.stop();
  EXPECT_EQ(server.lines(), (std::vector<std::string>{"403 a request", "200 /health"}));
}

TEST(Serve, AnswersSeveralRequestsOnOneConnection) {
  Options options;
  options.most_requests = 3;
  Running server(sheet, options);
  Client client(server.port());
  const std::string one = server.request("GET /health");
  client.send(one + one);
  std::string replies = client.read_until("ok\n");
  if (replies.find("ok\n") == replies.rfind("ok\n")) replies += client.read_until("ok\n");
  EXPECT_THAT(replies, HasSubstr("Connection: keep-alive\r\n"));
  EXPECT_THAT(replies, Not(HasSubstr("Connection: close\r\n")));
  client.send(one);
  const std::string last = client.read_all();
  EXPECT_THAT(last, HasSubstr("Connection: close\r\n"));
  EXPECT_THAT(last, EndsWith("\r\n\r\nok\n"));
}

TEST(Serve, ASlowClientIsClosedAndHoldsNobodyUp) {
  Options options;
  options.deadline = 1s;
  Running server(sheet, options);
  Client slow(server.port());
  const std::string request = server.request("GET /health");
  const auto begin = steady_clock::now();
  std::size_t sent = 0;
  while (!slow.closed(200ms) && sent < request.size()) {
    EXPECT_THAT(server.ask("GET /plan.txt"), EndsWith("the plan\n"));
    slow.send(request.substr(sent++, 1));
  }
  const auto lasted = steady_clock::now() - begin;
  EXPECT_LT(sent, request.size());
  EXPECT_GE(lasted, 900ms);
  EXPECT_LT(lasted, 4s);
  EXPECT_THAT(server.lines(), Contains("closed a connection that was too slow"));
}

TEST(Serve, AClientThatDoesNotReadIsClosed) {
  constexpr std::size_t k_more_than_any_buffer = 64'000'000;
  Options options;
  options.deadline = 500ms;
  Running server(
      [] {
        session::Sheet large = sheet();
        large.plan = std::string(k_more_than_any_buffer, 'x');
        return large;
      },
      options);
  Client deaf(server.port());
  deaf.send(server.request("GET /plan.txt"));
  std::this_thread::sleep_for(2s);
  EXPECT_LT(deaf.read_all().size(), k_more_than_any_buffer);
  EXPECT_THAT(server.lines(), Contains("closed a connection that was too slow"));
}

TEST(Serve, TurnsAwayWhatIsOneTooMany) {
  Running server;
  std::vector<Client> clients;
  for (int i = 0; i < 80; ++i) clients.emplace_back(server.port());
  int served = 0, refused = 0;
  for (std::size_t i = 0; i < clients.size(); ++i) {
    ASSERT_TRUE(clients[i].connected());
    if (i >= 64) {
      EXPECT_THAT(clients[i].read_all(), StartsWith("HTTP/1.1 503 Service Unavailable\r\n"));
      ++refused;
      continue;
    }
    clients[i].send(server.request("GET /health"));
    EXPECT_THAT(clients[i].read_until("ok\n"), EndsWith("ok\n"));
    ++served;
  }
  EXPECT_EQ(served, 64);
  EXPECT_EQ(refused, 16);
  clients.clear();
  std::string after;
  for (int tries = 0; tries < 50 && !after.starts_with("HTTP/1.1 200 "); ++tries) {
    after = server.ask("GET /health");
    std::this_thread::sleep_for(20ms);
  }
  EXPECT_THAT(after, EndsWith("ok\n"));
}

TEST(Serve, PlanningHoldsNobodyUp) {
  std::promise<void> release;
  std::shared_future<void> released = release.get_future().share();
  Running server([&] {
    released.wait();
    return sheet();
  });
  Client patient(server.port());
  patient.send(server.request("GET /plan.txt", "Connection: close\r\n"));
  EXPECT_FALSE(patient.readable(100ms));
  EXPECT_THAT(server.ask("GET /health"), EndsWith("ok\n"));
  release.set_value();
  EXPECT_THAT(patient.read_all(), EndsWith("the plan\n"));
}

TEST(Serve, ABugIsAReportNotAnEnd) {
  Running server([]() -> session::Sheet { throw std::logic_error("a gap is not a number"); });
  const std::string reply = server.ask("GET /");
  EXPECT_THAT(reply, StartsWith("HTTP/1.1 500 Internal Server Error\r\n"));
  EXPECT_THAT(reply, HasSubstr("report 1"));
  EXPECT_THAT(reply, Not(HasSubstr("a gap is not a number")));
  EXPECT_THAT(server.lines(), Contains("report 1: a gap is not a number"));
  EXPECT_THAT(server.ask("GET /"), HasSubstr("report 2"));
}

TEST(Serve, ATakenPortIsSaidInASentence) {
  Running server;
  Options options;
  options.port = server.port();
  const auto second = serve(sheet, options, [](const std::string&) { FAIL() << "must not start"; });
  ASSERT_FALSE(second);
  EXPECT_EQ(second.error(), "Port " + std::to_string(server.port()) +
                                " of this machine is taken by another program. Choose another port, or 0 for any free "
                                "one.");
}

TEST(Serve, StopsAtOnceWhenNobodyIsServed) {
  Running server;
  Client idle(server.port());
  Client half(server.port());
  half.send("GET / HT");
  ASSERT_THAT(server.ask("GET /health"), EndsWith("ok\n"));  // by now both are accepted
  EXPECT_LT(server.stop(), 1s);
  EXPECT_TRUE(idle.closed(1s));
  EXPECT_TRUE(half.closed(1s));
}

TEST(Serve, StopsOnTheSignalsOfTerminalAndSystem) {
  for (const int signal : {SIGTERM, SIGINT}) {
    Running server;
    Client idle(server.port());
    ASSERT_THAT(server.ask("GET /health"), EndsWith("ok\n"));
    const auto begin = steady_clock::now();
    ASSERT_EQ(::kill(::getpid(), signal), 0);
    EXPECT_LT(server.join(begin), 1s);
  }
}

TEST(Serve, AStopLetsAnAnswerOnItsWayArrive) {
  std::promise<void> begun;
  Running server([&] {
    begun.set_value();
    std::this_thread::sleep_for(150ms);
    return sheet();
  });
  Client client(server.port());
  client.send(server.request("GET /plan.txt"));
  begun.get_future().wait();
  auto rest = std::async(std::launch::async, [&] { return client.read_all(); });
  EXPECT_LT(server.stop(), 1s);
  const std::string reply = rest.get();
  EXPECT_THAT(reply, HasSubstr("Connection: close\r\n"));
  EXPECT_THAT(reply, EndsWith("the plan\n"));
}

}  // namespace
}  // namespace cotter::serve
