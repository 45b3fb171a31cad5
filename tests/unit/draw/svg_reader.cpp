#include "svg_reader.hpp"

#include <charconv>
#include <optional>

namespace cotter::draw::test {
namespace {

class Reader {
 public:
  explicit Reader(std::string_view text) : rest_(text) {}

  std::optional<Element> element() {
    if (!take("<")) return std::nullopt;
    Element e;
    e.tag = name();
    if (e.tag.empty() || !attributes(e)) return std::nullopt;
    if (take("/>")) return e;
    if (!take(">")) return std::nullopt;
    while (!rest_.empty()) {
      const auto lt = rest_.find('<');
      if (lt == std::string_view::npos) return std::nullopt;
      if (!text_allowed(rest_.substr(0, lt), e.tag)) return std::nullopt;
      e.text += rest_.substr(0, lt);
      rest_.remove_prefix(lt);
      if (take("</")) return name() == e.tag && take(">") ? std::optional(e) : std::nullopt;
      auto child = element();
      if (!child) return std::nullopt;
      e.inside.push_back(std::move(*child));
    }
    return std::nullopt;
  }

  bool finished() const { return rest_.find_first_not_of('\n') == std::string_view::npos; }

 private:
  static bool text_allowed(std::string_view text, const std::string& tag) {
    for (const char c : text) {
      if (static_cast<unsigned char>(c) < 0x20 && c != '\n') return false;
    }
    for (auto at = text.find('&'); at != std::string_view::npos && tag != "style"; at = text.find('&', at + 1)) {
      const auto end = text.find(';', at);
      if (end == std::string_view::npos || end - at > 6) return false;
    }
    return true;
  }
  bool take(std::string_view what) {
    if (!rest_.starts_with(what)) return false;
    rest_.remove_prefix(what.size());
    return true;
  }
  std::string name() {
    const auto end = rest_.find_first_of(" />=");
    const std::string found(rest_.substr(0, end));
    rest_.remove_prefix(found.size());
    return found;
  }
  bool attributes(Element& e) {
    while (take(" ")) {
      const std::string key = name();
      if (key.empty() || !take("=\"")) return false;
      const auto end = rest_.find('"');
      if (end == std::string_view::npos || e.attributes.contains(key)) return false;
      const std::string_view value = rest_.substr(0, end);
      if (value.find('<') != std::string_view::npos || !text_allowed(value, "")) return false;
      e.attributes[key] = value;
      rest_.remove_prefix(end + 1);
    }
    return true;
  }
  std::string_view rest_;
};

void collect(const Element& e, const std::string& name, std::vector<const Element*>& found) {
  if (e.attributes.contains(name)) found.push_back(&e);
  for (const Element& child : e.inside) collect(child, name, found);
}

}  // namespace

double Element::number(const std::string& name) const {
  const std::string& written = attributes.at(name);
  double value = 0;
  std::from_chars(written.data(), written.data() + written.size(), value);
  return value;
}

Element read_svg(std::string_view text) {
  Reader reader(text);
  auto root = reader.element();
  return root && reader.finished() ? std::move(*root) : Element{};
}

std::vector<const Element*> with_attribute(const Element& root, const std::string& name) {
  std::vector<const Element*> found;
  collect(root, name, found);
  return found;
}

std::string text_of(const Element& element) {
  std::string all = element.text;
  for (const Element& child : element.inside) {
    if (child.tag != "title" && child.tag != "style") all += text_of(child) + "\n";
  }
  return all;
}

}  // namespace cotter::draw::test
