#include "html.hpp"

namespace sunstrain::paper {
namespace {

// U+202A to U+202E and U+2066 to U+2069 in UTF-8: embeddings, overrides and isolates.
bool turns_direction(std::string_view at) {
  if (at.size() < 3 || at[0] != '\xE2') return false;
  const auto last = static_cast<unsigned char>(at[2]);
  return (at[1] == '\x80' && last >= 0xAA && last <= 0xAE) || (at[1] == '\x81' && last >= 0xA6 && last <= 0xA9);
}

std::string_view entity(char c) {
  switch (c) {
    case '&':
      return "&amp;";
    case '<':
      return "&lt;";
    case '>':
      return "&gt;";
    case '"':
      return "&quot;";
    case '\'':
      return "&#39;";
    default:
      return {};
  }
}

Html cell(std::string_view tag, const Html& inner, const Attributes& attributes) {
  return element(tag, inner, attributes);
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (turns_direction(text.substr(i))) {
      i += 2;
      continue;
    }
    const char c = text[i];
    const auto byte = static_cast<unsigned char>(c);
    if (const std::string_view code = entity(c); !code.empty())
      out += code;
    else if ((byte < 0x20 && c != '\n' && c != '\t') || byte == 0x7F)
      out += "\xEF\xBF\xBD";
    else
      out += c;
  }
  return out;
}

Html text(std::string_view sentence) { return {escaped(sentence)}; }

Html typed(std::string_view words) {
  std::string code = escaped(words);
  for (std::size_t at = code.find('\n'); at != std::string::npos; at = code.find('\n', at + 5))
    code.replace(at, 1, "<br>\n");
  return {"<bdi>" + code + "</bdi>"};
}

Html element(std::string_view tag, const Html& inner, const Attributes& attributes) {
  std::string code = "<" + std::string(tag);
  for (const auto& [name, value] : attributes) code += " " + std::string(name) + "=\"" + escaped(value) + "\"";
  return {code + ">" + inner.code + "</" + std::string(tag) + ">"};
}

std::size_t visible_letters(const Html& html) {
  std::size_t letters = 0;
  bool in_tag = false, in_entity = false;
  for (const char c : html.code) {
    if (c == '<') in_tag = true;
    if (!in_tag && !in_entity && (static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++letters;
    if (c == '&') in_entity = true;
    if (c == ';') in_entity = false;
    if (c == '>') in_tag = false;
  }
  return letters;
}

Attributes classed(std::string name) {
  if (name.empty()) return {};
  return {{"class", std::move(name)}};
}

Html table(const Table& t) {
  Html all;
  if (!t.caption.empty()) all += element("caption", t.caption);
  if (!t.heads.empty()) {
    Html heads;
    for (const std::string& head : t.heads)
      heads += head.empty() ? element("td", Html{}) : cell("th", text(head), {{"scope", "col"}});
    all += element("thead", element("tr", heads));
  }
  Html body;
  for (const std::vector<Html>& row : t.rows) {
    Html cells;
    for (std::size_t i = 0; i < row.size(); ++i)
      cells += i == 0 && t.row_heads ? cell("th", row[i], {{"scope", "row"}}) : cell("td", row[i], {});
    body += element("tr", cells) + Html{"\n"};
  }
  return element("table", all + element("tbody", body), classed(t.kind)) + Html{"\n"};
}

Html facts(const Named& rows, const std::string& kind) {
  Html all;
  for (const auto& [name, value] : rows)
    all += element("li", element("span", name) + Html{" "} + element("span", value)) + Html{"\n"};
  return element("ul", all, classed(kind)) + Html{"\n"};
}

Html list(const std::vector<Html>& items, const std::string& kind) {
  Html all;
  for (const Html& item : items) all += element("li", item) + Html{"\n"};
  return element("ul", all, classed(kind)) + Html{"\n"};
}

Html sentences(const std::vector<std::string>& texts) {
  std::vector<Html> items;
  for (const std::string& sentence : texts) items.push_back(text(sentence));
  return list(items);
}

Html section(const std::string& heading, const Html& inner, const std::string& kind) {
  return element("section", element("h2", heading) + Html{"\n"} + inner, classed(kind)) + Html{"\n"};
}

Html blanks(const std::vector<std::string>& names) {
  Html all;
  for (const std::string& name : names)
    all += element("p", element("span", name.empty() ? Html{"&#160;"} : text(name)) + element("i", Html{"&#160;"}),
                   classed("blank")) +
           Html{"\n"};
  return all;
}

}  // namespace sunstrain::paper
