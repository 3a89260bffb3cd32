#include "job_lines.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sunstrain/job_keys.hpp"

namespace sunstrain {

std::string table_of(std::string_view key) {
  const std::size_t dot = key.rfind('.');
  std::string table(dot == std::string_view::npos ? "" : key.substr(0, dot));
  if (const std::size_t star = table.find('*'); star != std::string::npos) table.replace(star, 1, "1");
  return table;
}

std::vector<std::string> tables_in_order(const Reference& reference) {
  std::vector<std::string> names;
  for (const JobKey& row : reference.job_keys) {
    for (const std::string& key : concrete_keys(row.name)) {
      const std::string name = table_of(key);
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    }
  }
  return names;
}

std::string name_in_table(std::string_view key) { return std::string(key.substr(key.rfind('.') + 1)); }

std::string comment(std::string_view text) {
  constexpr std::size_t width = 78;
  std::string out, line = "#";
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    if (line.size() + 1 + end > width) {
      out += line + "\n";
      line = "#";
    }
    line += " " + std::string(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return out + line + "\n";
}

std::string example_value(const JobKey& row) {
  using Kind = JobKey::Kind;
  const bool number = row.kind == Kind::fraction || row.kind == Kind::angle || row.kind == Kind::number;
  const bool plain = !row.example.empty() && row.example.find_first_not_of("-.0123456789") == std::string::npos;
  return number && plain ? row.example : toml_text(row.example);
}

std::string toml_text(std::string_view text) {
  const bool literal = text.find('"') != std::string_view::npos && text.find('\'') == std::string_view::npos;
  const auto control = [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; };
  if (literal && std::none_of(text.begin(), text.end(), control)) return fmt::format("'{}'", text);
  std::string out = "\"";
  for (const char c : text) {
    if (control(c))
      out += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
    else if (c == '"' || c == '\\')
      out += std::string("\\") + c;
    else
      out += c;
  }
  return out + "\"";
}

}  // namespace sunstrain
