#include <array>
#include <sodium/crypto_hash_sha256.h>

#include "document/parse.hpp"

namespace cotter::document {

std::string content_hash(const Node& node) {
  const std::string text = write_json_line(node);
  std::array<unsigned char, crypto_hash_sha256_BYTES> digest{};
  crypto_hash_sha256(digest.data(), reinterpret_cast<const unsigned char*>(text.data()), text.size());
  constexpr std::string_view k_digits = "0123456789abcdef";
  std::string hash;
  for (const unsigned char byte : digest) {
    hash += k_digits[byte >> 4];
    hash += k_digits[byte & 0x0Fu];
  }
  return hash;
}

}  // namespace cotter::document
