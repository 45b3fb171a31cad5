#include "serve/reply.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace cotter::serve {
namespace {

using std::chrono::seconds;
using std::chrono::sys_seconds;
using testing::HasSubstr;
using testing::Not;

TEST(HttpDate, IsTheFixedForm) {
  // RFC 9110, 5.6.7: the example of an IMF-fixdate.
  EXPECT_EQ(http_date(sys_seconds(seconds(784'111'777))), "Sun, 06 Nov 1994 08:49:37 GMT");
  EXPECT_EQ(http_date(sys_seconds(seconds(0))), "Thu, 01 Jan 1970 00:00:00 GMT");
  // 29 February 2024 was a Thursday.
  EXPECT_EQ(http_date(sys_seconds(seconds(1'709'251'199))), "Thu, 29 Feb 2024 23:59:59 GMT");
}

TEST(HeadOf, IsExactlyThis) {
  EXPECT_EQ(head_of(sentence(200, "ok"), Afterwards::keep_open, sys_seconds(seconds(784'111'777))),
            "HTTP/1.1 200 OK\r\n"
            "Date: Sun, 06 Nov 1994 08:49:37 GMT\r\n"
            "Content-Type: text/plain; charset=utf-8\r\n"
            "Content-Length: 3\r\n"
            "Content-Security-Policy: default-src 'none'; style-src 'unsafe-inline'; img-src 'self'; font-src data:; "
            "base-uri 'none'; form-action 'none'; frame-ancestors 'none'\r\n"
            "X-Content-Type-Options: nosniff\r\n"
            "X-Frame-Options: DENY\r\n"
            "Referrer-Policy: no-referrer\r\n"
            "Cross-Origin-Resource-Policy: same-origin\r\n"
            "Cross-Origin-Opener-Policy: same-origin\r\n"
            "Cache-Control: no-store\r\n"
            "Connection: keep-alive\r\n\r\n");
}

TEST(HeadOf, SaysWhatMayBeAskedInstead) {
  const sys_seconds now(seconds(0));
  EXPECT_THAT(head_of(sentence(405, "no"), Afterwards::close, now), HasSubstr("\r\nAllow: GET, HEAD\r\n"));
  EXPECT_THAT(head_of(sentence(200, "ok"), Afterwards::close, now), Not(HasSubstr("Allow:")));
  EXPECT_THAT(head_of(sentence(503, "full"), Afterwards::close, now), HasSubstr("\r\nRetry-After: 1\r\n"));
  EXPECT_THAT(head_of(sentence(200, "ok"), Afterwards::close, now), HasSubstr("\r\nConnection: close\r\n\r\n"));
}

}  // namespace
}  // namespace cotter::serve
