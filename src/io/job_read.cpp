#include "sunstrain/io/job_read.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "data_node.hpp"
#include "job_words.hpp"
#include "say.hpp"
#include "sunstrain/job_keys.hpp"
#include "users_toml.hpp"

namespace sunstrain {

namespace {

// ---- the tree into keys -----------------------------------------------------------------------------

class Reader {
 public:
  Reader(std::string source, const Reference& reference) : reference_(reference) { job_.source = std::move(source); }

  struct Read {
    Job job;
    KeyTexts texts;
  };
  Read read(const DataNode& document) {
    table(document, "");
    return {std::move(job_), std::move(texts_)};
  }

 private:
  std::string where(const DataNode& node) const {
    return told(reference_.language, BadInput(say("{}, line {}", job_.source, node.line)));
  }

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
      throw BadInput(say("{}: {}: one value is needed here, not a table", where(node), shown(path)));
    }
    for (std::string& name : tables) {
      if (const std::size_t star = name.find('*'); star != std::string::npos) name.replace(star, 1, "1");
    }
    const std::string nearest = nearest_word(path, tables);
    throw BadInput(nearest.empty()
                       ? say("{}: [{}]: no such table; sunstrain {} --template lists them all", where(node),
                             shown(path), reference_.template_of)
                       : say("{}: [{}]: no such table; the nearest is [{}]", where(node), shown(path), nearest));
  }

  void value(const DataNode& node, const std::string& key) {
    const JobKey* row = find_job_key(reference_.job_keys, key);
    if (row != nullptr && !seen_.insert(key).second) {
      throw BadInput(say("{}: {}: this key is given twice", where(node), key));
    }
    if (node.kind == DataNode::Kind::list) {
      if (row == nullptr)
        throw BadInput(
            say("{}: {}: {}", where(node), shown(key), no_such_key(key, reference_.job_keys, reference_.template_of)));
      throw BadInput(say("{}: {}: one value is needed here, not a list; alternatives are written \"wood or vinyl\"",
                         where(node), key));
    }
    if (row != nullptr && row->kind == JobKey::Kind::text && node.kind != DataNode::Kind::text) {
      throw BadInput(say("{}: {} = {}: write it between quotes", where(node), key, as_typed(node)));
    }
    const bool yes_or_no = row != nullptr && row->choices == std::vector<std::string>{"yes", "no"};
    texts_.emplace_back(key, typed_text(node, yes_or_no));
    set_value(job_, key, texts_.back().second, where(node), reference_);
  }

  static std::string typed_text(const DataNode& node, bool yes_or_no) {
    switch (node.kind) {
      case DataNode::Kind::flag:
        return yes_or_no ? (node.flag ? "yes" : "no") : (node.flag ? "true" : "false");
      case DataNode::Kind::number:
        return fmt::format("{}", node.number);
      default:
        return node.text;
    }
  }

  const Reference& reference_;
  Job job_;
  KeyTexts texts_;
  std::set<std::string> seen_;
};

Reader::Read read_toml(std::string_view text, std::string source_name, const Reference& reference) {
  source_name = shown(source_name, longest_path);
  const DataNode document = parse_users_toml(
      text, source_name, say("sunstrain {} --template prints one to start from", reference.template_of));
  return Reader(std::move(source_name), reference).read(document);
}

}  // namespace

Job read_job_toml(std::string_view text, std::string source_name, const Reference& reference) {
  return read_toml(text, std::move(source_name), reference).job;
}

KeyTexts job_texts(std::string_view text, std::string source_name, const Reference& reference) {
  return read_toml(text, std::move(source_name), reference).texts;
}

}  // namespace sunstrain
