#pragma once
// Just enough reading of SVG text for the tests: elements with their attributes, and whether tags balance.

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace cotter::draw::test {

struct Element {
  std::string tag;
  std::map<std::string, std::string> attributes;
  std::string text;  ///< own text, entities as written
  std::vector<Element> inside;
  double number(const std::string& name) const;
};

/// The root element; its tag is empty when the text is not well formed.
Element read_svg(std::string_view text);

/// Every element below that carries the attribute.
std::vector<const Element*> with_attribute(const Element& root, const std::string& name);

/// All text below.
std::string text_of(const Element& element);

}  // namespace cotter::draw::test
