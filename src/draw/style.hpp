#pragma once
// How a sheet is to look and which words stand on it. Nothing in here changes what is drawn to scale.

#include <functional>
#include <string>

#include "model/finding.hpp"
#include "quantity/text.hpp"

namespace cotter::draw {

/// `automatic` follows the reader's system; `print` is black on white.
enum class Theme { automatic, light, dark, print };

/// What a finding says in the list.
struct FindingText {
  std::string headline;  ///< one or two sentences
  std::string number;    ///< value with its limit, short
};

/// The fixed words of a sheet.
struct Captions {
  std::string heading = "Side elevation, drive side";
  std::string note = "(In brackets): worked out. ≈ assumed. ? not known.";
  std::string caution =
      "The makers' instructions go first. A qualified mechanic checks the bicycle before its first ride.";
  std::string millimetres = "Millimetres.";
  std::string inches = "Inches.";
  std::string nothing_to_draw = "No frame numbers yet: nothing can be drawn to scale.";
  std::string findings = "Findings";
  std::string summary = "{} findings, {} of them ok";
  std::string more_ok = "{} more are ok";
  std::string all_ok = "all {} are ok";
  std::string more = "and {} more";
  std::string owner = "owner";
  std::string document = "document";
  std::string document_kind = "assembly drawing";
  std::string title = "title";
  std::string number = "number";
  std::string revision = "rev.";
  std::string sheet = "sheet";
  std::string state = "state";
};

struct Style {
  Theme theme = Theme::automatic;
  std::string fonts_css;                                      ///< @font-face rules; empty: installed fonts
  std::function<FindingText(const model::Finding&)> text_of;  ///< empty: the rule's label and its subject
  std::string state;                                          ///< last line of the title block; empty: no such line
  std::string selected;                                       ///< id of the finding under the marker
  quantity::NumberStyle numbers;
  Captions captions;
};

}  // namespace cotter::draw
