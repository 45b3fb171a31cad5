#pragma once
// One planned job as a read-only page on this machine: serves it on the loopback address until told to stop. The job is
// planned anew for each request, so that a reload shows what an edit of its file did.

#include <chrono>
#include <cstddef>
#include <functional>
#include <stop_token>
#include <string>
#include <tl/expected.hpp>

#include "session/session.hpp"

namespace cotter::serve {

/// Plans the job. Called on a thread of its own, one call at a time. What it throws is answered with 500 and a report
/// number, and logged under that number.
using Provider = std::function<session::Sheet()>;

struct Options {
  unsigned short port = 0;                      ///< 0: any free port
  std::chrono::milliseconds deadline{10'000};   ///< for one whole request: waiting, reading, planning and writing
  std::size_t most_connections = 64;            ///< one more is told 503 and closed
  int most_requests = 100;                      ///< on one connection, then it is closed
  std::chrono::milliseconds grace{500};         ///< at a stop, for answers on their way
  std::stop_token stop;                         ///< stops like a signal does
  std::function<void(const std::string&)> log;  ///< one line a request; never anything a client wrote
};

/// Serves until SIGINT, SIGTERM or `options.stop`; `on_ready` gets the address once it can be opened. Prints nothing.
/// A plan that is running at a stop is waited for; a second signal ends the process at once.
/// **Fails with** a sentence when the port cannot be had.
tl::expected<void, std::string> serve(const Provider& provider, const Options& options,
                                      const std::function<void(const std::string& address)>& on_ready);

}  // namespace cotter::serve
