// break.toml and break_keys.toml: what may be seen at a cracked pane, and what it says.
#include <algorithm>
#include <array>

#include "condition_load.hpp"
#include "reference_tables.hpp"
#include "say.hpp"
#include "sunstrain/io/break_report.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/job_keys.hpp"

namespace sunstrain {
namespace {

using Speaks = Clue::Speaks;
using Weight = Clue::Weight;
using Figure = StressSign::Figure;

constexpr const char *keys_file = "break_keys.toml", *tables_file = "break.toml";

constexpr std::array<std::pair<const char*, Speaks>, 4> speakings{{{"for", Speaks::for_heat},
                                                                   {"against", Speaks::against_heat},
                                                                   {"weak edge", Speaks::of_weak_edge},
                                                                   {"nothing", Speaks::of_nothing}}};
constexpr std::array<std::pair<const char*, Weight>, 3> weights{
    {{"weak", Weight::weak}, {"strong", Weight::strong}, {"decisive", Weight::decisive}}};
constexpr std::array<std::pair<const char*, Figure>, 2> figures{
    {{"about", Figure::about}, {"at most", Figure::at_most}}};

Clue clue_of(DataRow& row, const std::vector<JobKey>& keys) {
  Clue clue;
  clue.name = row.text("name");
  clue.when = load_condition(row.node("when"), keys, row.where() + ", when");
  clue.speaks = word_named(row, "speaks", speakings);
  const bool weighs = clue.speaks == Speaks::for_heat || clue.speaks == Speaks::against_heat;
  if (weighs) clue.weight = word_named(row, "weight", weights);
  if (clue.speaks == Speaks::for_heat && clue.weight == Weight::decisive)
    row.refuse("weight", "no clue alone decides for heat: weak or strong");
  clue.text = row.text("text");
  clue.note = row.text_or("note", "");
  clue.source = row.source();
  return clue;
}

StressBand band_row(DataRow& row) {
  constexpr double most_mpa = 1000.0;
  StressBand band{
      row.text("name"), row.text("say"), pa_per_mpa * row.number("from_mpa", 0.0, most_mpa), row.text("text"), {}};
  band.source = row.source();
  return band;
}

void read_figure(DataRow& row, const std::vector<JobKey>& keys, StressSign& sign) {
  constexpr double least_constant = 0.1, most_constant = 10.0, most_mm = 10'000.0;
  sign.figure = word_named(row, "figure", figures);
  sign.length = row.text("length");
  const JobKey* key = find_job_key(keys, sign.length);
  if (key == nullptr || key->kind != JobKey::Kind::length || !(key->minimum > 0.0))
    row.refuse("length", "the key of a length over 0 is needed");
  const std::vector<double> constants = row.numbers("constant_mpa_sqrt_m", least_constant, most_constant);
  if (constants.size() != 3 || !std::is_sorted(constants.begin(), constants.end()))
    row.refuse("constant_mpa_sqrt_m", "three numbers are needed: least, likely, most");
  sign.least_pa_sqrt_m = pa_per_mpa * constants[0];
  sign.constant_pa_sqrt_m = pa_per_mpa * constants[1];
  sign.most_pa_sqrt_m = pa_per_mpa * constants[2];
  sign.uncertain_share = row.number("uncertain_share", 0.0, 0.99);
  sign.tells_to_m = m_per_mm * row.number("tells_to_mm", 1.0, most_mm);
  sign.far = row.text("far");
}

// The bands that a sign names, as places in the table.
std::vector<std::size_t> bands_named(DataRow& row, const std::vector<StressBand>& bands) {
  std::vector<std::string> names;
  for (const StressBand& band : bands) names.push_back(band.name);
  std::vector<std::size_t> places;
  for (const std::string& word : row.words("bands")) {
    const auto found = std::find(names.begin(), names.end(), word);
    if (found == names.end()) row.refuse_word("bands", word, names);
    places.push_back(static_cast<std::size_t>(found - names.begin()));
  }
  std::sort(places.begin(), places.end());
  return places;
}

StressSign sign_of(DataRow& row, const std::vector<JobKey>& keys, const std::vector<StressBand>& bands) {
  StressSign sign;
  sign.name = row.text("name");
  sign.when = load_condition(row.node("when"), keys, row.where() + ", when");
  if (row.has("figure"))
    read_figure(row, keys, sign);
  else
    sign.bands = bands_named(row, bands);
  sign.text = row.text("text");
  sign.source = row.source();
  return sign;
}

Advice advice_of(DataRow& row) {
  Advice advice{row.text("name"), row.text("text"), {}};
  advice.source = row.source();
  return advice;
}

void read_rule_of_result(DataRow row, BreakTables& tables) {
  constexpr double most = 20.0;
  tables.strong_for = static_cast<std::size_t>(row.number("strong_for", 1.0, most));
  tables.strong_against = static_cast<std::size_t>(row.number("strong_against", 1.0, most));
  row.text("note");
  row.source();
  row.finish();
}

void require_rising(const std::vector<StressBand>& bands) {
  for (std::size_t i = 0; i < bands.size(); ++i) {
    const bool rises = i == 0 ? bands[0].from_pa <= 0.0 : bands[i].from_pa > bands[i - 1].from_pa;
    if (!rises) throw BadInput(say("{}: band {}: bands rise, the first from 0", tables_file, bands[i].name));
  }
}

void put_into_language(BreakTables& tables) {
  const Language& language = tables.form.language;
  const auto tell = [&](std::string& text) { text = told(language, text); };
  for (JobKey& key : tables.form.job_keys) {
    tell(key.sentence);
    tell(key.question);
  }
  for (Clue& clue : tables.clues) tell(clue.text);
  for (StressBand& band : tables.bands) {
    tell(band.say);
    tell(band.text);
  }
  for (StressSign& sign : tables.signs) {
    tell(sign.text);
    if (!sign.far.empty()) tell(sign.far);
  }
  for (std::vector<Advice>* list : {&tables.keep, &tables.handling})
    for (Advice& advice : *list) tell(advice.text);
}

}  // namespace

BreakTables load_break_tables(std::string_view keys, std::string_view text) {
  BreakTables tables;
  tables.form.template_of = "break";
  tables.form.job_keys = load_keys(keys_file, keys);
  const std::vector<JobKey>& known = tables.form.job_keys;
  const DataNode document = parse_toml_tree(tables_file, text);
  require_tables(document, tables_file, {"rule_of_result", "clue", "band", "stress_sign", "keep", "handling"});
  read_rule_of_result(DataRow(document, tables_file).table("rule_of_result"), tables);
  for (DataRow& row : rows_of(document, tables_file, "clue")) {
    tables.clues.push_back(clue_of(row, known));
    row.finish();
  }
  tables.bands = rows_read(document, tables_file, "band", band_row);
  require_rising(tables.bands);
  for (DataRow& row : rows_of(document, tables_file, "stress_sign")) {
    tables.signs.push_back(sign_of(row, known, tables.bands));
    row.finish();
  }
  tables.keep = rows_read(document, tables_file, "keep", advice_of);
  tables.handling = rows_read(document, tables_file, "handling", advice_of);
  return tables;
}

BreakTables builtin_break_tables(const std::string& language) {
  const auto& files = embedded_reference_files();
  BreakTables tables = load_break_tables(files.at(keys_file), files.at(tables_file));
  tables.form.language = load_language(language);
  put_into_language(tables);
  return tables;
}

}  // namespace sunstrain
