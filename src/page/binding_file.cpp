// Job files and schedules, read into panes and written from them.
#include <algorithm>
#include <map>

#include "../io/job_words.hpp"
#include "../io/tell.hpp"
#include "binding_requests.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/schedule_read.hpp"
#include "sunstrain/job_keys.hpp"
#include "text_source.hpp"

namespace sunstrain::page {
namespace {

constexpr std::size_t most_panes = 500;  // that a page shows; a longer schedule is for the program

// A job file's first line that says anything is a table's name or a key's value.
bool is_job_file(std::string_view text) {
  constexpr std::string_view mark = "\xEF\xBB\xBF";
  if (text.starts_with(mark)) text.remove_prefix(mark.size());
  while (!text.empty()) {
    const std::string_view line = trimmed(text.substr(0, text.find('\n')));
    if (!line.empty() && line.front() != '#') return line.front() == '[' || line.find('=') != std::string_view::npos;
    const std::size_t end = text.find('\n');
    text = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
  }
  return true;
}

std::string name_in(const KeyTexts& texts) {
  const auto name = std::find_if(texts.begin(), texts.end(), [](const auto& set) { return set.first == "job.name"; });
  return name == texts.end() ? "" : ", " + shown(name->second);
}

// Nobody could write what a reader would refuse: the row's job is made once.
Json pane_of_row(const ScheduleLayout& layout, const CsvRecord& record, const std::string& source,
                 const Reference& reference) {
  const std::string line = tell(reference.language, "line {}", record.line);
  try {
    schedule_row(layout, record, {}, reference);
    const RowTexts row = row_texts(layout, record, reference.language);
    return {{"name", line + name_in(row.set)}, {"toml", job_file_text(row.set, reference)}, {"quantity", row.quantity}};
  } catch (const BadInput& error) {
    return {{"name", line}, {"refused", source + ", " + shown(told(reference.language, error), std::string::npos)}};
  }
}

Json panes_of_schedule(const std::string& text, const std::string& source, const Reference& reference) {
  CsvReader reader(from_text(text), source);
  const CsvRecord header = header_row(reader, source);
  const ScheduleLayout layout = schedule_layout(header, reader.separator(), source, reference);
  Json panes = Json::array();
  CsvRecord record;
  while (reader.next(record)) {
    if (record.blank()) continue;
    if (panes.size() == most_panes)
      throw BadInput("{}: more than {} rows; the program takes a schedule of any length (sunstrain schedule)", source,
                     most_panes);
    panes.push_back(pane_of_row(layout, record, source, reference));
  }
  if (panes.empty()) throw BadInput("{}: has no pane below its first row", source);
  return panes;
}

// All that a request says of a pane, in the key table's order; of a key that is said twice the last holds.
KeyTexts texts_of(const Json& request, const Session& session) {
  const Reference& reference = session.reference;
  job_as_given(request, session);  // refuses what cannot be written either
  KeyTexts all;
  if (request.contains("toml"))
    all = job_texts(request["toml"].get<std::string>(), request.value("source", "the file"), reference);
  for (const Answered& step : form_of(request, session).interview.steps)
    all.insert(all.end(), step.sets.begin(), step.sets.end());
  for (const Json& pair : request.value("set", Json::array())) all.emplace_back(pair.at(0), pair.at(1));
  KeyTexts last;
  for (auto set = all.begin(); set != all.end(); ++set) {
    const auto same = [&](const auto& later) { return later.first == set->first; };
    if (std::none_of(set + 1, all.end(), same)) last.push_back(*set);
  }
  const std::vector<JobKey>& keys = reference.job_keys;
  std::stable_sort(last.begin(), last.end(), [&](const auto& one, const auto& other) {
    return find_job_key(keys, one.first) < find_job_key(keys, other.first);  // rows of one vector
  });
  return last;
}

// A column for each key that any pane has, in the key table's order.
std::string schedule_text(const std::vector<std::pair<KeyTexts, double>>& panes, const Reference& reference) {
  std::vector<std::string> columns;
  for (const JobKey& row : reference.job_keys) {
    for (const std::string& key : concrete_keys(row.name)) {
      const auto has = [&](const auto& pane) {
        return std::any_of(pane.first.begin(), pane.first.end(), [&](const auto& set) { return set.first == key; });
      };
      if (std::any_of(panes.begin(), panes.end(), has)) columns.push_back(key);
    }
  }
  std::vector<std::string> cells = columns;
  cells.push_back("quantity");
  std::string text = csv_line(cells, ',', "\n");
  for (const auto& [texts, quantity] : panes) {
    const std::map<std::string, std::string> said(texts.begin(), texts.end());
    cells.clear();
    for (const std::string& key : columns) cells.push_back(said.contains(key) ? said.at(key) : "");
    cells.push_back(std::to_string(static_cast<long>(quantity)));
    text += csv_line(cells, ',', "\n");
  }
  return text;
}

}  // namespace

std::string read(const Json& request, Session& session) {
  const Reference& reference = session.reference;
  const std::string text = request.at("text"), source = shown(request.value("name", "the file"));
  if (!is_job_file(text)) return Json{{"panes", panes_of_schedule(text, source, reference)}}.dump();
  require_text(text, source);
  const std::string name = name_in(job_texts(text, source, reference));
  Json panes = Json::array();
  panes.push_back({{"name", source + name}, {"toml", text}, {"quantity", 1}});
  return Json{{"panes", panes}}.dump();
}

std::string write(const Json& request, Session& session) {
  const Reference& reference = session.reference;
  if (!request.contains("panes")) {
    const KeyTexts texts = texts_of(request, session);
    return Json{{"text", job_file_text(texts, reference)}, {"keys", texts}}.dump();
  }
  std::vector<std::pair<KeyTexts, double>> panes;
  for (const Json& pane : request["panes"]) panes.emplace_back(texts_of(pane, session), pane.at("quantity"));
  return Json{{"text", schedule_text(panes, reference)}}.dump();
}

}  // namespace sunstrain::page
