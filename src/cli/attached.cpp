#include "attached.hpp"

#include <filesystem>
#include <fstream>
#include <iterator>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "sunstrain/io/job_read.hpp"

namespace sunstrain::cli {

namespace fs = std::filesystem;

Attached read_attached(const std::string& path, const Saying& where) {
  constexpr std::uintmax_t most_bytes = 100'000'000;
  const auto refuse = [&](const Saying& what) { throw BadInput(say("{}: {}", where, what)); };
  std::error_code error;
  if (!fs::is_regular_file(path, error)) refuse("is no ordinary file");
  if (fs::file_size(path, error) > most_bytes || error) refuse("is larger than 100 MB, the most that is kept");
  std::ifstream in(path, std::ios::binary);
  if (!in) refuse("cannot be opened");
  std::string bytes{std::istreambuf_iterator<char>(in), {}};
  if (in.bad()) refuse("could not be read to its end");
  const std::string name = fs::path(path).filename().string();
  if (!is_utf8(name)) refuse("has a name that is no UTF-8 text");
  return {name, std::move(bytes)};
}

}  // namespace sunstrain::cli
