#include "serve/reply.hpp"

#include <array>
#include <fmt/format.h>

namespace cotter::serve {
namespace {

struct StatusWords {
  int status;
  std::string_view words;
};

constexpr StatusWords k_status[] = {
    {200, "OK"},
    {400, "Bad Request"},
    {403, "Forbidden"},
    {404, "Not Found"},
    {405, "Method Not Allowed"},
    {413, "Content Too Large"},
    {421, "Misdirected Request"},
    {431, "Request Header Fields Too Large"},
    {500, "Internal Server Error"},
    {503, "Service Unavailable"},
};

std::string_view words_of(int status) {
  for (const auto& [number, words] : k_status)
    if (number == status) return words;
  return "";
}

// The page has no script and asks nobody else for anything; the fonts stand in the drawing itself.
constexpr std::string_view k_security_headers =
    "Content-Security-Policy: default-src 'none'; style-src 'unsafe-inline'; img-src 'self'; font-src data:; "
    "base-uri 'none'; form-action 'none'; frame-ancestors 'none'\r\n"
    "X-Content-Type-Options: nosniff\r\n"
    "X-Frame-Options: DENY\r\n"
    "Referrer-Policy: no-referrer\r\n"
    "Cross-Origin-Resource-Policy: same-origin\r\n"
    "Cross-Origin-Opener-Policy: same-origin\r\n"
    "Cache-Control: no-store\r\n";

}  // namespace

std::string http_date(std::chrono::sys_seconds time) {
  constexpr std::array k_days{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
  constexpr std::array k_months{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  const auto midnight = std::chrono::floor<std::chrono::days>(time);
  const std::chrono::year_month_day date(midnight);
  const std::chrono::hh_mm_ss clock(time - midnight);
  return fmt::format("{}, {:02} {} {:04} {:02}:{:02}:{:02} GMT", k_days[std::chrono::weekday(midnight).c_encoding()],
                     static_cast<unsigned>(date.day()), k_months[static_cast<unsigned>(date.month()) - 1],
                     static_cast<int>(date.year()), clock.hours().count(), clock.minutes().count(),
                     clock.seconds().count());
}

std::string head_of(const Reply& reply, Afterwards afterwards, std::chrono::sys_seconds now) {
  std::string head = fmt::format("HTTP/1.1 {} {}\r\nDate: {}\r\nContent-Type: {}\r\nContent-Length: {}\r\n",
                                 reply.status, words_of(reply.status), http_date(now), reply.type, reply.body.size());
  if (reply.status == 405) head += "Allow: GET, HEAD\r\n";
  if (reply.status == 503) head += "Retry-After: 1\r\n";
  head += k_security_headers;
  head += afterwards == Afterwards::close ? "Connection: close\r\n\r\n" : "Connection: keep-alive\r\n\r\n";
  return head;
}

Reply sentence(int status, std::string_view text) {
  return {.status = status, .body = std::string(text) + "\n"};
}

}  // namespace cotter::serve
