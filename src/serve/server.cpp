// The only file that knows sockets. One thread for them, one for planning; a connection belongs to the first.
// Callbacks, no coroutines (g++ 12 destroys temporaries of a co_await expression twice).

// clang-format off
#include <utility>  // before asio, which misses it in C++20
// clang-format on

#include <array>
#include <atomic>
#include <boost/asio.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/http/empty_body.hpp>
#include <boost/beast/http/parser.hpp>
#include <boost/beast/http/read.hpp>
#include <csignal>
#include <cstdint>
#include <fmt/format.h>
#include <limits>
#include <memory>
#include <optional>
#include <set>

#include "serve/answer.hpp"
#include "serve/serve.hpp"

namespace cotter::serve {
namespace {

namespace asio = boost::asio;
namespace http = boost::beast::http;
using asio::ip::tcp;
using boost::system::error_code;

constexpr std::size_t k_most_header_bytes = 16 * 1024;
constexpr std::size_t k_most_discarded_bytes = 256 * 1024;
constexpr std::chrono::milliseconds k_linger{1000};
constexpr std::chrono::milliseconds k_pause_after_failed_accept{100};

class Connection;

class Server {
 public:
  Server(const Provider& provider, const Options& options) : provider_(provider), options_(options) {}

  /// **Fails with** why the port cannot be had.
  tl::expected<void, std::string> listen();
  std::string address() const { return fmt::format("http://127.0.0.1:{}/", port_); }
  void run();

  // For its connections.
  const Options& options() const { return options_; }
  unsigned short port() const { return port_; }
  bool stopping() const { return stopping_; }
  void log(const std::string& line) const {
    if (options_.log) options_.log(line);
  }
  /// Plans and answers away from the sockets, then gives the reply back among them.
  void plan_for(std::shared_ptr<Connection> connection, Route route);
  void left(Connection* connection);

 private:
  void accept();
  void accept_later();
  void turn_away(tcp::socket socket);
  void begin_stop();

  const Provider& provider_;
  const Options& options_;
  std::set<Connection*> open_;  // outlives io_, whose pending handlers hold connections
  bool running_ = false;
  bool stopping_ = false;
  unsigned short port_ = 0;
  unsigned reports_ = 0;
  asio::io_context io_{1};
  tcp::acceptor acceptor_{io_};
  asio::signal_set signals_{io_};
  asio::steady_timer timer_{io_};
  asio::thread_pool planner_{1};
};

/// Reads one request after another and answers each. One deadline covers a request from waiting for its first byte to
/// the last byte of its answer, so a client that is slow in any way is closed.
class Connection : public std::enable_shared_from_this<Connection> {
 public:
  Connection(Server& server, tcp::socket socket)
      : server_(server), socket_(std::move(socket)), deadline_(socket_.get_executor()) {}
  ~Connection() { server_.left(this); }
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  void read();
  void answer_with(Reply reply);
  /// Closes now; whatever is pending ends with an error.
  void close();
  /// No answer is on its way.
  bool idle() const { return state_ != State::answering; }
  /// Readable from the planning thread, so that nothing is planned for a client that has gone.
  bool gone() const { return gone_; }

 private:
  enum class State { waiting, answering, leaving };
  using Parser = http::request_parser<http::empty_body>;

  void set_deadline(std::chrono::milliseconds span);
  void after_read(error_code error);
  void route_request();
  void refuse_and_leave(int status, std::string_view reason);
  void after_write(error_code error);
  void leave();
  void discard();

  Server& server_;
  tcp::socket socket_;
  asio::steady_timer deadline_;
  boost::beast::flat_buffer buffer_{k_most_header_bytes};
  std::optional<Parser> parser_;
  State state_ = State::waiting;
  std::atomic<bool> gone_ = false;
  int requests_ = 0;
  bool head_only_ = false;
  bool keep_open_ = false;
  std::string_view asked_;
  std::string head_;
  Reply reply_;
  std::array<char, 4096> discarded_{};
  std::size_t discarded_bytes_ = 0;
};

void Connection::set_deadline(std::chrono::milliseconds span) {
  deadline_.expires_after(span);
  deadline_.async_wait([self = shared_from_this()](error_code error) {
    // A wait that had already ended when the deadline was moved comes without an error.
    if (error || self->gone_ || self->deadline_.expiry() > std::chrono::steady_clock::now()) return;
    if (self->state_ == State::answering || (self->state_ == State::waiting && self->parser_->got_some()))
      self->server_.log("closed a connection that was too slow");
    self->close();
  });
}

void Connection::close() {
  gone_ = true;
  error_code ignored;
  socket_.close(ignored);
  deadline_.cancel();
}

void Connection::read() {
  state_ = State::waiting;
  head_only_ = false;
  set_deadline(server_.options().deadline);
  parser_.emplace();
  parser_->header_limit(k_most_header_bytes);
  // No body is ever read: `judge` refuses its announcement. (No limit at all means 0 to Boost 1.74.)
  parser_->body_limit(std::numeric_limits<std::uint64_t>::max());
  http::async_read_header(socket_, buffer_, *parser_,
                          [self = shared_from_this()](error_code error, std::size_t) { self->after_read(error); });
}

void Connection::after_read(error_code error) {
  if (!error) return route_request();
  if (error == http::error::header_limit || error == http::error::buffer_overflow)
    return refuse_and_leave(431, "The head of the request is too long.");
  const bool malformed = error.category() == error_code(http::error::bad_method).category() &&
                         error != http::error::end_of_stream && error != http::error::partial_message;
  if (malformed) return refuse_and_leave(400, "This is no HTTP request.");
  close();
}

void Connection::route_request() {
  state_ = State::answering;
  ++requests_;
  const auto& request = parser_->get();
  const auto text = [](boost::beast::string_view view) { return std::string_view(view.data(), view.size()); };
  const auto all = [&](http::field name) {
    std::vector<std::string_view> values;
    const auto [first, last] = request.equal_range(name);
    for (auto it = first; it != last; ++it) values.push_back(text(it->value()));
    return values;
  };
  head_only_ = request.method() == http::verb::head;
  keep_open_ = request.keep_alive() && requests_ < server_.options().most_requests;
  const auto route = judge({.method = text(request.method_string()),
                            .target = text(request.target()),
                            .hosts = all(http::field::host),
                            .origins = all(http::field::origin),
                            .lengths = all(http::field::content_length),
                            .transfer_encoding = request.count(http::field::transfer_encoding) > 0},
                           server_.port());
  if (!route) return refuse_and_leave(route.error().status, route.error().reason);
  asked_ = path_of(*route);
  if (needs_plan(*route))
    server_.plan_for(shared_from_this(), *route);
  else
    answer_with(answer(*route));
}

void Connection::refuse_and_leave(int status, std::string_view reason) {
  asked_ = "a request";
  // Nothing is known of what follows a refused head, so the connection cannot be read on.
  keep_open_ = keep_open_ && status == 404;
  answer_with(sentence(status, reason));
}

void Connection::answer_with(Reply reply) {
  if (gone_) return;
  state_ = State::answering;
  reply_ = std::move(reply);
  keep_open_ = keep_open_ && !server_.stopping();
  head_ = head_of(reply_, keep_open_ ? Afterwards::keep_open : Afterwards::close,
                  std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now()));
  server_.log(fmt::format("{} {}", reply_.status, asked_));
  const std::array<asio::const_buffer, 2> parts{
      asio::buffer(std::as_const(head_)), head_only_ ? asio::const_buffer() : asio::buffer(std::as_const(reply_.body))};
  asio::async_write(socket_, parts,
                    [self = shared_from_this()](error_code error, std::size_t) { self->after_write(error); });
}

void Connection::after_write(error_code error) {
  if (error) return close();
  reply_ = {};
  if (keep_open_ && !server_.stopping()) return read();
  leave();
}

void Connection::leave() {
  // Closing while the client still sends would make its system throw our answer away; so hear it out for a moment.
  state_ = State::leaving;
  set_deadline(k_linger);
  error_code error;
  socket_.shutdown(tcp::socket::shutdown_send, error);
  if (error) return close();
  discard();
}

void Connection::discard() {
  socket_.async_read_some(asio::buffer(discarded_), [self = shared_from_this()](error_code error, std::size_t bytes) {
    self->discarded_bytes_ += bytes;
    if (error || self->discarded_bytes_ > k_most_discarded_bytes) return self->close();
    self->discard();
  });
}

tl::expected<void, std::string> Server::listen() {
  const tcp::endpoint endpoint(asio::ip::address_v4::loopback(), options_.port);
  error_code error;
  acceptor_.open(endpoint.protocol(), error);
  if (!error) acceptor_.set_option(tcp::acceptor::reuse_address(true), error);
  if (!error) acceptor_.bind(endpoint, error);
  if (!error) acceptor_.listen(asio::socket_base::max_listen_connections, error);
  if (!error) port_ = acceptor_.local_endpoint(error).port();
  if (!error) signals_.add(SIGINT, error);
  if (!error) signals_.add(SIGTERM, error);
  if (!error) return {};
  if (error == asio::error::address_in_use)
    return tl::make_unexpected(
        fmt::format("Port {} of this machine is taken by another program. Choose another port, or 0 for any free one.",
                    options_.port));
  return tl::make_unexpected(
      fmt::format("Port {} of this machine cannot be used: {}.", options_.port, error.message()));
}

void Server::run() {
  signals_.async_wait([this](error_code error, int) {
    if (!error) begin_stop();
  });
  const std::stop_callback on_stop(options_.stop, [this] { asio::post(io_, [this] { begin_stop(); }); });
  accept();
  running_ = true;
  io_.run();
  running_ = false;
  planner_.stop();  // what has not begun is not planned
  planner_.join();
}

void Server::accept() {
  acceptor_.async_accept([this](error_code error, tcp::socket socket) {
    if (stopping_) return;
    if (error) return accept_later();
    if (open_.size() >= options_.most_connections) {
      turn_away(std::move(socket));
    } else {
      const auto connection = std::make_shared<Connection>(*this, std::move(socket));
      open_.insert(connection.get());
      connection->read();
    }
    accept();
  });
}

void Server::accept_later() {
  // Out of file handles, most likely: trying again at once would only keep the processor busy.
  timer_.expires_after(k_pause_after_failed_accept);
  timer_.async_wait([this](error_code) {
    if (!stopping_) accept();
  });
}

void Server::turn_away(tcp::socket socket) {
  const Reply reply = sentence(503, "Too many connections are open. Close other pages, then try again.");
  const auto now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  const std::string text = head_of(reply, Afterwards::close, now) + reply.body;
  error_code ignored;
  socket.non_blocking(true, ignored);
  socket.send(asio::buffer(text), 0, ignored);  // fits into an empty send buffer, so it never waits
  socket.shutdown(tcp::socket::shutdown_send, ignored);
  log("503 too many connections");
}

void Server::plan_for(std::shared_ptr<Connection> connection, Route route) {
  asio::post(planner_, [this, connection = std::move(connection), route, work = asio::make_work_guard(io_)]() mutable {
    std::optional<Reply> reply;
    std::string bug;
    try {
      if (!connection->gone()) reply = answer(route, provider_());
    } catch (const std::exception& caught) {
      bug = caught.what();
    }
    // The connection is given away whole: it must end on the thread of the sockets.
    asio::post(io_,
               [this, connection = std::move(connection), reply = std::move(reply), bug = std::move(bug)]() mutable {
                 if (!bug.empty()) {
                   reply = bug_answer(++reports_);
                   log(fmt::format("report {}: {}", reports_, bug));
                 }
                 if (reply) connection->answer_with(std::move(*reply));
               });
  });
}

void Server::begin_stop() {
  if (std::exchange(stopping_, true)) return;
  error_code ignored;
  acceptor_.close(ignored);
  signals_.cancel(ignored);
  signals_.clear(ignored);  // from here on a second signal ends the process
  for (Connection* connection : open_)
    if (connection->idle()) connection->close();
  if (open_.empty()) return;
  timer_.expires_after(options_.grace);
  timer_.async_wait([this](error_code error) {
    if (!error) io_.stop();
  });
}

void Server::left(Connection* connection) {
  open_.erase(connection);
  // The last one has gone before the end of the grace. (When io_ has ended, its timer may have ended too.)
  if (running_ && stopping_ && open_.empty()) timer_.cancel();
}

}  // namespace

tl::expected<void, std::string> serve(const Provider& provider, const Options& options,
                                      const std::function<void(const std::string& address)>& on_ready) {
  Server server(provider, options);
  if (auto listening = server.listen(); !listening) return listening;
  on_ready(server.address());
  server.run();
  return {};
}

}  // namespace cotter::serve
