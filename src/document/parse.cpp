#include "document/parse.hpp"

#include <array>
#include <cerrno>
#include <cstdio>
#include <fmt/format.h>
#include <memory>

#include "document/parse_json.hpp"
#include "document/parse_text.hpp"
#include "document/parse_yaml.hpp"

namespace cotter::document {
namespace {

constexpr std::string_view k_byte_order_mark = "\xEF\xBB\xBF";

Diagnostic too_many_bytes(const Limits& limits) {
  Diagnostic diagnostic;
  diagnostic.code = "too_large";
  diagnostic.message = fmt::format("The file has more than {} bytes.", limits.bytes);
  diagnostic.accepted = "a smaller file";
  return diagnostic;
}

Diagnostic unreadable(const std::string& path, int error) {
  Diagnostic diagnostic;
  diagnostic.code = "unreadable";
  diagnostic.found = path;
  diagnostic.accepted = "a file that can be read";
  // Own words: the system's follow the locale.
  switch (error) {
    case ENOENT:
    case ENOTDIR:
      diagnostic.message = "There is no such file.";
      break;
    case EACCES:
    case EPERM:
      diagnostic.message = "The file may not be read by this user.";
      break;
    case EISDIR:
      diagnostic.message = "This is a folder, not a file.";
      break;
    default:
      diagnostic.message = fmt::format("The file could not be read (system error {}).", error);
  }
  return diagnostic;
}

struct CloseFile {
  void operator()(std::FILE* file) const { std::fclose(file); }
};

}  // namespace

Format format_of(std::string_view file) {
  return file.ends_with(".json") ? Format::json : Format::yaml;
}

Read<Node> parse(std::string_view text, std::string file, Format format, const Limits& limits) {
  Diagnostics diagnostics(std::move(file));
  if (text.size() > limits.bytes) {
    diagnostics.add(too_many_bytes(limits));
    return tl::unexpected(std::move(diagnostics));
  }
  if (text.starts_with(k_byte_order_mark)) text.remove_prefix(k_byte_order_mark.size());
  const Places places(text);
  if (auto refused = refusal(text, format, places)) {
    diagnostics.add(std::move(*refused));
    return tl::unexpected(std::move(diagnostics));
  }
  Node node = format == Format::json ? parse_json(text, places, limits, diagnostics)
                                     : parse_yaml(text, places, limits, diagnostics);
  if (!diagnostics.empty()) return tl::unexpected(std::move(diagnostics));
  return node;
}

Read<std::string> read_text(const std::string& path, const Limits& limits) {
  const auto refused = [&](Diagnostic diagnostic) {
    Diagnostics diagnostics(path);
    diagnostics.add(std::move(diagnostic));
    return tl::unexpected(std::move(diagnostics));
  };
  const std::unique_ptr<std::FILE, CloseFile> file(std::fopen(path.c_str(), "rb"));
  if (!file) return refused(unreadable(path, errno));
  std::string text;
  std::array<char, 65536> block{};
  std::size_t count = block.size();
  while (count == block.size()) {
    count = std::fread(block.data(), 1, block.size(), file.get());
    text.append(block.data(), count);
    if (text.size() > limits.bytes) return refused(too_many_bytes(limits));
  }
  if (std::ferror(file.get()) != 0) return refused(unreadable(path, errno));
  return text;
}

Read<Node> parse_file(const std::string& path, const Limits& limits) {
  const auto text = read_text(path, limits);
  if (!text) return tl::unexpected(text.error());
  return parse(*text, path, format_of(path), limits);
}

}  // namespace cotter::document
