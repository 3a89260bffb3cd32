#include "sunstrain/io/job_read.hpp"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "data_node.hpp"
#include "job_words.hpp"
#include "sunstrain/job_keys.hpp"

namespace sunstrain {

namespace {

constexpr std::size_t largest_job = 1'000'000;  // bytes
constexpr int deepest = 8;                      // parts of a dotted key, brackets within brackets

// ---- before the parser ------------------------------------------------------------------------------

// Steps over a string that starts at `i`, or a comment; returns where it ends.
std::size_t skip_string(std::string_view text, std::size_t i) {
  const char mark = text[i];
  const std::string three(3, mark);
  const bool several_lines = text.substr(i, 3) == three;
  const std::size_t end_length = several_lines ? 3 : 1;
  for (i += end_length; i < text.size(); ++i) {
    if (text[i] == '\\' && mark == '"') {
      ++i;
    } else if (several_lines ? text.substr(i, 3) == three : text[i] == mark) {
      i += end_length;
      // Up to two marks more belong to the text: """He said "yes""""
      for (int more = 0; several_lines && more < 2 && i < text.size() && text[i] == mark; ++more) ++i;
      return i;
    } else if (!several_lines && text[i] == '\n') {
      return i;  // an unfinished string: the parser says so
    }
  }
  return text.size();
}

// The parser calls itself once for every level of a key or bracket, and so would run out of stack on a
// hostile file; a job needs three levels.
void require_shallow(std::string_view text, const std::string& source) {
  int line = 1, dots = 0, depth = 0;
  const auto check = [&](int levels) {
    if (levels > deepest) throw BadInput(fmt::format("{}, line {}: more levels than any key has", source, line));
  };
  for (std::size_t i = 0; i < text.size();) {
    const char c = text[i];
    if (c == '"' || c == '\'') {
      const std::size_t end = skip_string(text, i);
      line += static_cast<int>(std::count(text.begin() + static_cast<std::ptrdiff_t>(i),
                                          text.begin() + static_cast<std::ptrdiff_t>(std::min(end, text.size())), '\n'));
      i = end;
      continue;
    }
    if (c == '#') {
      i = std::min(text.find('\n', i), text.size());
      continue;
    }
    if (c == '\n') ++line;
    if (c == '.') check(++dots);
    if (c == '[' || c == '{') check(++depth);
    if (c == ']' || c == '}') depth = std::max(0, depth - 1);
    if (c == '\n' || c == '=' || c == ',' || c == '[' || c == '{') dots = 0;
    ++i;
  }
}

// The parser's "job.toml, line 3: what" on one line, with the line as it stands behind it: it may not name the key.
std::string with_line(std::string message, std::string_view text) {
  for (char& c : message) {
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) c = '?';
  }
  const std::string_view mark = ", line ";
  const std::size_t at = message.find(mark);
  const std::size_t digits = at == std::string::npos ? 0 : message.find_first_not_of("0123456789", at + mark.size());
  if (at == std::string::npos || digits == at + mark.size()) return message;
  for (int line = std::stoi(message.substr(at + mark.size(), 9)); line > 1; --line) {
    text.remove_prefix(std::min(text.find('\n'), text.size() - 1) + 1);
  }
  return message + ", in: " + shown(trimmed(text.substr(0, text.find('\n'))));
}

DataNode parsed(std::string_view text, const std::string& source) {
  if (text.size() > largest_job) {
    throw BadInput(fmt::format("{}: is larger than {} MB, the most that a job may be", source, largest_job / 1'000'000));
  }
  if (trimmed(text).empty()) {
    throw BadInput(source + ": is empty; sunstrain check --template prints a job to start from");
  }
  require_text(text, source);
  require_shallow(text, source);
  try {
    return parse_toml_tree(source, text);
  } catch (const BadInput& error) {
    throw BadInput(with_line(error.what(), text));
  }
}

// ---- the tree into keys -----------------------------------------------------------------------------

class Reader {
 public:
  Reader(std::string source, const Reference& reference) : reference_(reference) { job_.source = std::move(source); }

  Job read(const DataNode& document) {
    table(document, "");
    return std::move(job_);
  }

 private:
  std::string where(const DataNode& node) const { return fmt::format("{}, line {}", job_.source, node.line); }

  void table(const DataNode& node, const std::string& path) {
    for (std::size_t i = 0; i < node.items.size(); ++i) {
      const std::string key = path.empty() ? node.keys[i] : path + "." + node.keys[i];
      const DataNode& item = node.items[i];
      if (item.kind == DataNode::Kind::table) {
        require_table(item, key);
        table(item, key);
      } else {
        value(item, key);
      }
    }
  }

  // "pane", "lite.1": the start of some key. A misspelled table with nothing in it would pass unseen.
  void require_table(const DataNode& node, const std::string& path) const {
    const std::string start = key_pattern(path) + ".", exact = path + ".";
    std::vector<std::string> tables;
    for (const JobKey& row : reference_.job_keys) {
      if (row.name.compare(0, start.size(), start) == 0 || row.name.compare(0, exact.size(), exact) == 0) return;
      tables.push_back(row.name.substr(0, row.name.rfind('.')));
    }
    if (find_job_key(reference_.job_keys, path) != nullptr) {
      throw BadInput(fmt::format("{}: {}: one value is needed here, not a table", where(node), shown(path)));
    }
    for (std::string& name : tables) {
      if (const std::size_t star = name.find('*'); star != std::string::npos) name.replace(star, 1, "1");
    }
    const std::string nearest = nearest_word(path, tables);
    throw BadInput(fmt::format("{}: [{}]: no such table{}", where(node), shown(path),
                               nearest.empty() ? "; sunstrain check --template lists them all" : "; the nearest is [" + nearest + "]"));
  }

  void value(const DataNode& node, const std::string& key) {
    const JobKey* row = find_job_key(reference_.job_keys, key);
    if (row != nullptr && !seen_.insert(key).second) {
      throw BadInput(fmt::format("{}: {}: this key is given twice", where(node), key));
    }
    if (node.kind == DataNode::Kind::list) {
      if (row == nullptr) throw BadInput(fmt::format("{}: {}{}", where(node), shown(key), no_such_key(key, reference_.job_keys)));
      throw BadInput(fmt::format("{}: {}: one value is needed here, not a list", where(node), key));
    }
    if (row != nullptr && row->kind == JobKey::Kind::text && node.kind != DataNode::Kind::text) {
      throw BadInput(fmt::format("{}: {} = {}: write it between quotes", where(node), key, as_typed(node)));
    }
    const bool yes_or_no = row != nullptr && row->choices == std::vector<std::string>{"yes", "no"};
    set_value(job_, key, typed_text(node, yes_or_no), where(node), reference_);
  }

  static std::string typed_text(const DataNode& node, bool yes_or_no) {
    switch (node.kind) {
      case DataNode::Kind::flag: return yes_or_no ? (node.flag ? "yes" : "no") : (node.flag ? "true" : "false");
      case DataNode::Kind::number: return fmt::format("{}", node.number);
      default: return node.text;
    }
  }

  const Reference& reference_;
  Job job_;
  std::set<std::string> seen_;
};

}  // namespace

Job read_job_toml(std::string_view text, std::string source_name, const Reference& reference) {
  const DataNode document = parsed(text, source_name);
  return Reader(std::move(source_name), reference).read(document);
}

}  // namespace sunstrain
