#pragma once
// An answer before it goes on the wire, and its head as HTTP/1.1 text.

#include <chrono>
#include <string>
#include <string_view>

namespace cotter::serve {

struct Reply {
  int status = 200;
  std::string type = "text/plain; charset=utf-8";
  std::string body;
};

enum class Afterwards { keep_open, close };

/// Status line and headers up to the empty line. Every answer forbids scripts, framing, sniffing and keeping.
/// **Source** fields and their meaning: RFC 9110, RFC 9112.
std::string head_of(const Reply& reply, Afterwards afterwards, std::chrono::sys_seconds now);

/// A sentence as an answer.
Reply sentence(int status, std::string_view text);

/// "Sun, 06 Nov 1994 08:49:37 GMT", whatever the locale. **Source** RFC 9110, 5.6.7.
std::string http_date(std::chrono::sys_seconds time);

}  // namespace cotter::serve
