#include <fmt/format.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>

#include "job_words.hpp"
#include "say.hpp"
#include "sunstrain/io/job_read.hpp"

namespace sunstrain {

namespace {

unsigned byte_at(std::string_view text, std::size_t i) { return static_cast<unsigned char>(text[i]); }

// Bytes of the UTF-8 character at `i`, 0 where there is none: overlong forms, surrogates and what lies
// beyond U+10FFFF are none (RFC 3629, section 4).
std::size_t character_length(std::string_view text, std::size_t i) {
  const unsigned lead = byte_at(text, i);
  if (lead < 0x80) return 1;
  const std::size_t length = lead >= 0xC2 && lead <= 0xDF   ? 2
                             : lead >= 0xE0 && lead <= 0xEF ? 3
                             : lead >= 0xF0 && lead <= 0xF4 ? 4
                                                            : 0;
  if (length == 0 || i + length > text.size()) return 0;
  const unsigned second = byte_at(text, i + 1);
  const unsigned least = lead == 0xE0 ? 0xA0 : lead == 0xF0 ? 0x90 : 0x80;
  const unsigned most = lead == 0xED ? 0x9F : lead == 0xF4 ? 0x8F : 0xBF;
  if (second < least || second > most) return 0;
  for (std::size_t k = i + 2; k < i + length; ++k) {
    if ((byte_at(text, k) & 0xC0) != 0x80) return 0;
  }
  return length;
}

void require_file(const std::string& path) {
  if (path.empty() || path.find('\0') != std::string::npos) throw BadInput("no file name was given");
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (status.type() == std::filesystem::file_type::not_found) refuse_file(path, "no such file");
  if (!std::filesystem::exists(status)) refuse_file(path, part_of_saying(error.message()));
  if (std::filesystem::is_directory(status)) refuse_file(path, "is a directory; name a file in it");
}

}  // namespace

bool is_utf8(std::string_view bytes) {
  std::size_t length = 0;
  for (std::size_t i = 0; i < bytes.size(); i += length) {
    if ((length = character_length(bytes, i)) == 0) return false;
  }
  return true;
}

void require_text(std::string_view text, std::string_view source_name) {
  std::size_t line = 1;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = text[i] == '\0' ? 0 : character_length(text, i);
    if (length == 0) {
      throw BadInput(say("{}, line {}: byte 0x{:02X} is not text; save the file as UTF-8 text",
                         shown(source_name, longest_path), line, byte_at(text, i)));
    }
    line += text[i] == '\n' ? 1 : 0;
    i += length;
  }
}

std::string read_text_file(const std::string& path, std::size_t max_bytes) {
  require_file(path);
  errno = 0;
  std::ifstream in(path, std::ios::binary);
  if (!in) refuse_file(path, say("cannot be opened: {}", std::strerror(errno)));
  // One byte beyond the limit tells a file that is too large, whatever size it claims to have.
  std::string text(64 * 1024, '\0');
  std::size_t size = 0;
  while (size <= max_bytes && in) {
    if (size == text.size()) text.resize(std::min(2 * text.size(), max_bytes + 1));
    in.read(text.data() + size, static_cast<std::streamsize>(text.size() - size));
    size += static_cast<std::size_t>(in.gcount());
    if (size == text.size() && size > max_bytes) break;
  }
  if (in.bad()) refuse_file(path, "could not be read to its end");
  if (size > max_bytes)
    refuse_file(path, say("is larger than {} MB, the most that is read", static_cast<double>(max_bytes) / 1e6));
  if (size == 0) refuse_file(path, "is empty");
  text.resize(size);
  require_text(text, path);
  return text;
}

}  // namespace sunstrain
