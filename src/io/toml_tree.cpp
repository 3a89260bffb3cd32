#include <cmath>

// The parser asserts just before it would refuse: "[=]" ends the program in a debug build, and in a release
// build the assertion becomes an assumption that is wrong. Without either it refuses with a line number, so
// it is compiled here, with assertions that do nothing.
#undef NDEBUG
#undef TOML_HEADER_ONLY
#undef TOML_SHARED_LIB
#define TOML_HEADER_ONLY 1
#define TOML_ASSERT(expr) static_cast<void>(0)
#include <toml++/toml.h>

#include "data_node.hpp"
#include "say.hpp"
#include "toml_scan.hpp"

namespace sunstrain {

namespace {

// The parser quotes what it found, line ends and all; a message is one line.
[[noreturn]] void refuse_at(const std::string& file, int line, std::string what) {
  for (char& c : what) {
    if (static_cast<unsigned char>(c) < 0x20) c = ' ';
  }
  throw BadInput(say("{}, line {}: {}", file, line, Saying(what)));
}

DataNode converted(const toml::node& node, const std::string& file) {
  DataNode out;
  out.line = static_cast<int>(node.source().begin.line);
  if (const auto* table = node.as_table()) {
    for (const auto& [key, value] : *table) {
      out.keys.emplace_back(key.str());
      out.items.push_back(converted(value, file));
    }
  } else if (const auto* list = node.as_array()) {
    out.kind = DataNode::Kind::list;
    for (const auto& value : *list) out.items.push_back(converted(value, file));
  } else if (const auto* text = node.as_string()) {
    out.kind = DataNode::Kind::text;
    out.text = text->get();
  } else if (const auto* flag = node.as_boolean()) {
    out.kind = DataNode::Kind::flag;
    out.flag = flag->get();
  } else if (node.is_number()) {
    out.kind = DataNode::Kind::number;
    out.number = node.is_integer() ? static_cast<double>(node.as_integer()->get()) : node.as_floating_point()->get();
    if (!std::isfinite(out.number)) refuse_at(file, out.line, "a number must be finite");
  } else {
    refuse_at(file, out.line, "dates and times are not used here; write them between quotes");
  }
  return out;
}

}  // namespace

DataNode parse_toml_tree(const std::string& file, std::string_view text) {
  require_parsable(text, file);
  try {
    const toml::table document = toml::parse(text, file);
    return converted(document, file);
  } catch (const toml::parse_error& error) {
    refuse_at(file, static_cast<int>(error.source().begin.line), std::string(error.description()));
  }
}

}  // namespace sunstrain
