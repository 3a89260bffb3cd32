// Internal: html that cannot hold a user's text unescaped. Text becomes Html through text() and typed() alone.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace sunstrain::paper {

struct Html {
  std::string code;
  bool empty() const { return code.empty(); }
};
inline Html operator+(Html a, const Html& b) {
  a.code += b.code;
  return a;
}
inline Html& operator+=(Html& a, const Html& b) {
  a.code += b.code;
  return a;
}

// For text and for attributes between double quotes: & < > " ' as entities, control characters as U+FFFD, and none of
// the marks that turn the direction of what stands around them.
std::string escaped(std::string_view text);

// A sentence of ours.
Html text(std::string_view sentence);
// What somebody typed: its direction is its own, its line ends are kept.
Html typed(std::string_view words);

using Attributes = std::vector<std::pair<std::string_view, std::string>>;
Html element(std::string_view tag, const Html& inner, const Attributes& attributes = {});
inline Html element(std::string_view tag, std::string_view sentence, const Attributes& attributes = {}) {
  return element(tag, text(sentence), attributes);
}

// How many letters a reader sees: without tags, an entity as one.
std::size_t visible_letters(const Html& html);

// {{"class", name}}
Attributes classed(std::string name);

// A table with its caption and its heads; the first cell of a row is the row's head, where rows have one.
struct Table {
  std::string caption, kind;       // kind: its class
  std::vector<std::string> heads;  // none: rows of a name and what it is
  std::vector<std::vector<Html>> rows = {};
  bool row_heads = true;
};
Html table(const Table& table);

// Names and what they are, in columns.
using Named = std::vector<std::pair<std::string, Html>>;
Html facts(const Named& rows, const std::string& kind = "facts");

Html list(const std::vector<Html>& items, const std::string& kind = "");
// A list of sentences of ours.
Html sentences(const std::vector<std::string>& texts);

// A heading and what stands under it, kept together in print where it can be.
Html section(const std::string& heading, const Html& inner, const std::string& kind = "");

// Lines to write on, each with its name before it; an empty name is a line alone.
Html blanks(const std::vector<std::string>& names);

}  // namespace sunstrain::paper
