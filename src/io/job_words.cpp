#include "job_words.hpp"

#include <algorithm>
#include <limits>

#include "say.hpp"
#include "sunstrain/job_keys.hpp"

namespace sunstrain {

namespace {

constexpr std::size_t longest_compared = 64;

// "lite.*.tint" as it would be typed beside `typed`: with its number where that makes sense, else with 1.
std::string typed_name(const JobKey& row, std::string_view typed) {
  std::string name = row.name;
  const std::size_t star = name.find('*');
  if (star == std::string::npos) return name;
  const int number = instance_number(typed);
  return name.replace(star, 1, std::to_string(number >= 1 && number <= 3 ? number : 1));
}

}  // namespace

std::string shown(std::string_view text, std::size_t longest) {
  std::string out;
  for (const char c : text.substr(0, longest)) {
    const auto byte = static_cast<unsigned char>(c);
    out += byte < 0x20 || byte == 0x7F ? '?' : c;
  }
  if (text.size() <= longest) return out;
  // Do not end inside a character of several bytes: drop its tail, then its lead.
  if ((static_cast<unsigned char>(text[longest]) & 0xC0) == 0x80) {
    while (!out.empty() && (static_cast<unsigned char>(out.back()) & 0xC0) == 0x80) out.pop_back();
    if (!out.empty()) out.pop_back();
  }
  return out + "...";
}

std::string quoted(std::string_view text) { return "\"" + shown(text) + "\""; }

std::string lower_case(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  return first == std::string_view::npos ? "" : text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

bool bare_number(std::string_view text) {
  constexpr std::string_view plain = "0123456789.,/-+ ";
  return text.find_first_of("0123456789") != std::string_view::npos &&
         text.find_first_not_of(plain) == std::string_view::npos;
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
  a = a.substr(0, longest_compared);
  b = b.substr(0, longest_compared);
  std::vector<std::size_t> before(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1)});
      const bool swap = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swap) row[j] = std::min(row[j], before[j - 2] + 1);
    }
    std::swap(before, last);
    std::swap(last, row);
  }
  return last[b.size()];
}

std::string nearest_word(std::string_view typed, const std::vector<std::string>& words) {
  std::string nearest;
  if (typed.size() < 3) return nearest;  // of "4" every count is as near as any other
  std::size_t least = std::max<std::size_t>(2, typed.size() / 2) + 1;
  for (const std::string& word : words) {
    const std::size_t distance = edit_distance(lower_case(typed), lower_case(word));
    if (distance >= least) continue;
    least = distance;
    nearest = word;
  }
  return nearest;
}

Saying nearest_hint(std::string_view typed, const std::vector<std::string>& words) {
  const std::string nearest = nearest_word(typed, words);
  return nearest.empty() ? Saying("") : saying("; the nearest is {}", nearest);
}

Saying no_such_key(std::string_view key, const std::vector<JobKey>& keys, const std::string& template_of) {
  const std::string table = std::string(key) + ".";
  const bool is_table = std::any_of(keys.begin(), keys.end(),
                                    [&](const JobKey& row) { return row.name.compare(0, table.size(), table) == 0; });
  if (is_table) return saying("is a table; write its keys under [{}]", shown(key));
  const std::string typed = lower_case(key.substr(0, longest_compared));
  std::string nearest;
  std::size_t least = std::numeric_limits<std::size_t>::max();
  for (const JobKey& row : keys) {
    const std::string name = typed_name(row, typed);
    // A key given without its table ("width") counts as close to the key in it.
    const std::size_t in_table = edit_distance(typed, name.substr(name.rfind('.') + 1)) + 1;
    const std::size_t distance = std::min(edit_distance(typed, name), in_table);
    if (distance < least) {
      least = distance;
      nearest = name;
    }
  }
  if (least > std::max<std::size_t>(3, typed.size() / 2))
    return saying("no such key; sunstrain {} --template lists them all", template_of);
  return saying("no such key; the nearest is {}", nearest);
}

void refuse_file(const std::string& path, const Saying& what) {
  throw BadInput(say("{}: {}", shown(path, longest_path), what));
}

std::string joined(const std::vector<std::string>& words, std::string_view between) {
  std::string out;
  for (const std::string& word : words) {
    if (!out.empty()) out += between;
    out += word;
  }
  return out;
}

}  // namespace sunstrain
