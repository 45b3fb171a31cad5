#include <algorithm>
#include <fmt/format.h>

#include "document/parse.hpp"
#include "document/parse_text.hpp"

namespace cotter::document {
namespace {

enum class Layout { lines, one_line };

/// The two-character escape of a character that must not stand in a JSON string, or empty.
std::string_view short_escape(char c) {
  switch (c) {
    case '"':
      return "\\\"";
    case '\\':
      return "\\\\";
    case '\b':
      return "\\b";
    case '\f':
      return "\\f";
    case '\n':
      return "\\n";
    case '\r':
      return "\\r";
    case '\t':
      return "\\t";
    default:
      return {};
  }
}

bool needs_no_escape(char c) {
  return is_plain(c) && c != '"' && c != '\\';
}

void write_string(std::string_view text, std::string& out) {
  out += '"';
  for (std::size_t offset = 0; offset < text.size();) {
    const auto stop = std::find_if_not(text.begin() + offset, text.end(), needs_no_escape);
    out += text.substr(offset, static_cast<std::size_t>(stop - text.begin()) - offset);
    offset = static_cast<std::size_t>(stop - text.begin());
    if (offset == text.size()) break;
    const std::size_t bytes = character_at(text, offset).bytes;
    const char c = text[offset];
    if (bytes == 0) {
      // Not UTF-8: shown as written in the diagnostics, so that the JSON stays readable for everyone.
      out += fmt::format("\\\\x{:02X}", static_cast<unsigned char>(c));
    } else if (const std::string_view escape = short_escape(c); !escape.empty()) {
      out += escape;
    } else if (bytes == 1 && static_cast<unsigned char>(c) < 0x20) {
      out += fmt::format("\\u{:04x}", static_cast<unsigned char>(c));
    } else {
      out += text.substr(offset, bytes);
    }
    offset += bytes == 0 ? 1 : bytes;
  }
  out += '"';
}

class Writer {
 public:
  Writer(Layout layout, std::string& out) : layout_(layout), out_(out) {}

  void write(const Node& node, std::size_t level) {
    switch (node.kind()) {
      case Node::Kind::null:
        out_ += "null";
        break;
      case Node::Kind::boolean:
      case Node::Kind::number:
        out_ += node.scalar();
        break;
      case Node::Kind::text:
        write_string(node.scalar(), out_);
        break;
      case Node::Kind::list:
        write_list(node, level);
        break;
      case Node::Kind::map:
        write_map(node, level);
        break;
    }
  }

 private:
  void write_list(const Node& node, std::size_t level) {
    out_ += '[';
    for (const Node& item : node.items()) {
      separate(&item != &node.items().front(), level + 1);
      write(item, level + 1);
    }
    end(']', node.items().empty(), level);
  }

  void write_map(const Node& node, std::size_t level) {
    out_ += '{';
    for (const Node::Entry& entry : node.entries()) {
      separate(&entry != &node.entries().front(), level + 1);
      write_string(entry.key, out_);
      out_ += layout_ == Layout::lines ? ": " : ":";
      write(entry.value, level + 1);
    }
    end('}', node.entries().empty(), level);
  }

  void separate(bool comma, std::size_t level) {
    if (comma) out_ += ',';
    break_line(level);
  }

  void end(char bracket, bool empty, std::size_t level) {
    if (!empty) break_line(level);
    out_ += bracket;
  }

  void break_line(std::size_t level) {
    if (layout_ == Layout::one_line) return;
    out_ += '\n';
    out_.append(2 * level, ' ');
  }

  Layout layout_;
  std::string& out_;
};

std::string written(const Node& node, Layout layout) {
  std::string out;
  Writer(layout, out).write(node, 0);
  return out;
}

}  // namespace

std::string write_json(const Node& node) {
  return written(node, Layout::lines);
}

std::string write_json_line(const Node& node) {
  return written(node, Layout::one_line);
}

}  // namespace cotter::document
