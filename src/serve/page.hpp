#pragma once
// The one page: cautions, what is wrong if anything is, the drawing, the plan. Plain HTML without script; its look is
// in page_style.hpp. Every text is escaped; only the drawing, which we made ourselves, goes in as it is.

#include <string>
#include <string_view>

#include "session/session.hpp"

namespace cotter::serve {

/// Text that reads the same in HTML, in content and in quoted attributes. Control characters other than line feed and
/// tab become U+FFFD.
std::string escaped(std::string_view text);

/// The page of a planned job, or of one that cannot be planned.
std::string page(const session::Sheet& sheet);

/// The page that stands in for one a bug has kept from being made.
std::string bug_page(unsigned report);

/// A small SVG for the browser's tab.
std::string_view icon();

}  // namespace cotter::serve
