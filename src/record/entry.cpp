#include "sunstrain/record/entry.hpp"

#include <openssl/evp.h>

#include <array>
#include <memory>
#include <stdexcept>

namespace sunstrain::record {
namespace {

class Parts {
 public:
  Parts& add(std::string_view part) {
    const std::uint64_t length = part.size();
    for (int shift = 56; shift >= 0; shift -= 8) bytes_ += static_cast<char>((length >> shift) & 0xFFU);
    bytes_ += part;
    return *this;
  }
  Parts& number(std::int64_t value) { return add(std::to_string(value)); }
  Parts& count(std::size_t value) { return add(std::to_string(value)); }
  Parts& perhaps(std::string_view name, const std::optional<std::string>& text) {
    add(name).add(text ? "1" : "0");
    return text ? add(*text) : *this;
  }
  std::string take() { return std::move(bytes_); }

 private:
  std::string bytes_;
};

}  // namespace

const std::vector<EntryText>& entry_texts() {
  static const std::vector<EntryText> texts{
      {"pane", &Entry::pane},           {"lot", &Entry::lot},         {"looked_on", &Entry::looked_on},
      {"program", &Entry::program},     {"tables", &Entry::tables},   {"job", &Entry::job},
      {"own_rules", &Entry::own_rules}, {"weather", &Entry::weather}, {"result", &Entry::result}};
  return texts;
}

std::string sha256_hex(std::string_view bytes) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned length = 0;
  if (EVP_Digest(bytes.data(), bytes.size(), digest.data(), &length, EVP_sha256(), nullptr) != 1)
    throw std::runtime_error("SHA-256 failed");
  constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  for (unsigned i = 0; i < length; ++i) {
    text += digits[digest[i] >> 4U];
    text += digits[digest[i] & 15U];
  }
  return text;
}

std::string canonical_bytes(const Entry& entry) {
  Parts parts;
  parts.add("sunstrain record entry, form 1").add("number").number(entry.number).add("kind").add(entry.kind);
  parts.add("made_utc").add(entry.made_utc);
  parts.perhaps("corrects", entry.corrects ? std::optional(std::to_string(*entry.corrects)) : std::nullopt);
  for (const EntryText& one : entry_texts()) parts.perhaps(one.name, entry.*one.text);
  parts.add("attachments").count(entry.attachments.size());
  for (const Attachment& file : entry.attachments) parts.number(file.place).add(file.sha256).number(file.bytes);
  parts.add("sealed").count(entry.sealed.size());
  for (const Sealed& one : entry.sealed) parts.add(one.field).add(one.seal);
  parts.add("erased").count(entry.erased.size());
  for (const Erased& one : entry.erased) parts.number(one.entry).add(one.field);
  return parts.add("previous").add(entry.previous).take();
}

std::string entry_hash(const Entry& entry) { return sha256_hex(canonical_bytes(entry)); }

std::string beginning_of(std::string_view record_mark) {
  return sha256_hex(Parts().add("sunstrain record beginning, form 1").add(record_mark).take());
}

std::string seal_of(std::string_view salt, std::string_view field, std::string_view text) {
  return sha256_hex(Parts().add("sunstrain record seal, form 1").add(salt).add(field).add(text).take());
}

}  // namespace sunstrain::record
