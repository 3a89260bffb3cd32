// sunstrain record rerun: a kept job worked once more, and what became of it.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "../io/sky_word.hpp"
#include "../report/words.hpp"
#include "record_job.hpp"
#include "record_options.hpp"
#include "sunstrain/drivers.hpp"
#include "sunstrain/given_day.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/io/weather_read.hpp"
#include "sunstrain/job.hpp"
#include "sunstrain/report/safety_note.hpp"

namespace sunstrain::cli {
namespace {

using Json = nlohmann::ordered_json;
using namespace report;

struct Change {
  Saying what;
  std::string then, now;
};

struct Rerun {
  Json then, now;
  std::vector<Change> changes;
  std::vector<Saying> why;  // what differs between then and now, or that nothing does
  std::optional<GivenDay> day;
  std::optional<OnGivenDay> on_day;  // of the sheet that is nearest its line on it
  std::optional<Saying> weather;     // what became of the weather file; nothing: there was none
};

std::string number_text(const Json& number) {
  return number.is_number() ? fmt::format("{:.4g}", number.get<double>()) : number.dump();
}

// A leaf as a person reads it.
std::string leaf_text(const Json& leaf) { return leaf.is_string() ? leaf.get<std::string>() : number_text(leaf); }

std::string ids_text(const Json& rules) {
  std::string text;
  for (const Json& rule : rules) text += (text.empty() ? "" : " ") + rule.at("id").get<std::string>();
  return text.empty() ? "-" : text;
}

std::string unknowns_text(const Json& unknowns) {
  std::string text;
  for (const Json& one : unknowns)
    text += fmt::format("{}{} {}", text.empty() ? "" : ", ", one.at("key").get<std::string>(),
                        one.at("taken_as").get<std::string>());
  return text.empty() ? "-" : text;
}

// The figures that a reader looks at first; then every other leaf, by its path, counted.
std::vector<Change> changes_of(const Json& then, const Json& now) {
  std::vector<Change> changes;
  const auto compare = [&](const Saying& what, const Json& a, const Json& b) {
    if (a != b) changes.push_back({what, leaf_text(a), leaf_text(b)});
  };
  const auto at = [](const Json& json, const char* path) { return json.value(Json::json_pointer(path), Json()); };
  for (const auto& [what, path] :
       std::initializer_list<std::pair<Saying, const char*>>{{saying("verdict"), "/verdict"},
                                                             {saying("verdict of the figures"), "/figures/verdict"},
                                                             {saying("verdict of guidance"), "/guidance/verdict"},
                                                             {saying("ratio at the bad end"), "/stress_ratio"},
                                                             {saying("ratio, most likely"), "/stress_ratio_middle"},
                                                             {saying("worst month"), "/governing/month"},
                                                             {saying("worst hour"), "/governing/local_hour"}})
    compare(what, at(then, path), at(now, path));
  for (std::size_t i = 0; i < std::max(then["lites"].size(), now["lites"].size()); ++i) {
    const std::string path = fmt::format("/lites/{}/after_film/peak_edge_stress_mpa", i);
    compare(saying("edge stress of sheet {}, MPa", i + 1), at(then, path.c_str()), at(now, path.c_str()));
  }
  compare(saying("rules"), ids_text(then["rules"]), ids_text(now["rules"]));
  compare(saying("taken where not known"), unknowns_text(then["unknowns"]), unknowns_text(now["unknowns"]));
  if (changes.empty() && then != now) changes.push_back({saying("other parts of the answer"), "-", "-"});
  return changes;
}

// Versions belong to the reasons, not to what changed.
Json without_versions(Json result) {
  result.erase("engine_version");
  result.erase("reference_version");
  return result;
}

std::vector<Saying> version_changes(const record::Entry& entry, const Reference& reference, bool changed) {
  std::vector<Saying> why;
  if (entry.program != SUNSTRAIN_VERSION)
    why.push_back(saying("the program was {}, it is {}", entry.program.value_or("?"), SUNSTRAIN_VERSION));
  const Json then = Json::parse(entry.tables.value_or("{}")), now = Json::parse(tables_json(reference));
  std::set<std::string> tables;
  const Json files_then = then.value("files", Json::object());
  for (const auto& [file, hash] : now["files"].items())
    if (files_then.value(file, "") != hash.get<std::string>()) tables.insert(file);
  for (const auto& [file, hash] : files_then.items())
    if (!now["files"].contains(file)) tables.insert(file + " (-)");
  std::string names;
  for (const std::string& name : tables) names += (names.empty() ? "" : ", ") + name;
  if (!names.empty()) why.push_back(saying("tables that are not as they were: {}", names));
  if (why.empty())
    why.push_back(
        changed ? saying("the versions of program and tables are the same: another build, or another kind of machine")
                : saying("the same versions of program and tables, the same numbers to the last bit"));
  return why;
}

// The year's part can be worked again only with the same file.
std::optional<WeatherYear> weather_again(const record::Entry& entry, const po::variables_map& given,
                                         const Reference& reference, std::optional<Saying>& left) {
  if (!entry.weather) {
    if (given.count("weather") > 0) throw BadInput("--weather: the entry was worked without a weather file");
    return std::nullopt;
  }
  if (given.count("weather") == 0) {
    left = saying("its year is left out: --weather FILE works it again with the file of then");
    return std::nullopt;
  }
  const std::string path = text_of(given, "weather", ""), text = read_text_file(path, most_weather_bytes);
  if (record::sha256_hex(text) != *entry.weather)
    throw BadInput(say("--weather {}: is not the file of then: its SHA-256 is another", path));
  return read_weather(text, path, reference);
}

Reference rules_of(const record::Entry& entry) {
  if (!entry.own_rules) return builtin_reference();
  return with_own_rules(builtin_reference(), own_rules_kept_as, *entry.own_rules);
}

double cloud_of(const std::string& text) {
  if (const std::optional<double> cloud = cloud_named(text)) return *cloud;
  throw BadInput(
      say("--sky = {}: allowed: clear, overcast, or eighths of the sky under cloud: 3/8", sunstrain::quoted(text)));
}

// The day that was typed in; nothing where none was.
std::optional<GivenDay> day_of(const po::variables_map& given) {
  std::size_t count = 0;
  for (const char* option : {"day", "low", "high", "sky"}) count += given.count(option);
  if (count == 0) return std::nullopt;
  if (count < 4) throw BadInput("--day, --low, --high and --sky: give all four of them");
  const std::string date = day_given(given, "day").value();
  GivenDay day;
  day.month = std::stoi(date.substr(5, 2));
  day.day = std::stoi(date.substr(8));
  const JobKey air = quantity_key(JobKey::Kind::temperature, "C", 203.15, 333.15, "outdoor air");
  day.lowest_k = number_of(given, "low", air, 0.0);
  day.highest_k = number_of(given, "high", air, 0.0);
  if (day.highest_k < day.lowest_k) throw BadInput("--high: must not be under --low");
  day.cloud = cloud_of(text_of(given, "sky", ""));
  return day;
}

OnGivenDay worst_on(const Assessment& answer, const GivenDay& day, const Reference& reference, ChainCache& cache) {
  const std::vector<OnGivenDay> sheets = on_given_day(answer, day, reference, cache);
  return *std::max_element(sheets.begin(), sheets.end(),
                           [](const OnGivenDay& a, const OnGivenDay& b) { return a.stress_ratio < b.stress_ratio; });
}

Rerun work_again(const record::Entry& entry, const po::variables_map& given, const Reference& reference) {
  const std::string source = fmt::format("entry {}", entry.number);
  Job job = job_of_json(*entry.job, source, reference);
  for (const std::string& setting : texts_of(given, "set")) set_key(job, setting, reference);
  check_job(job, reference);
  Rerun rerun;
  const auto year = weather_again(entry, given, reference, rerun.weather);
  ChainCache cache;
  Assessment answer = assess(job, reference, cache, year ? &*year : nullptr);
  answer.drivers = drivers_of(answer, reference, cache);
  if (rerun.day = day_of(given); rerun.day) rerun.on_day = worst_on(answer, *rerun.day, reference, cache);
  rerun.then = Json::parse(*entry.result);
  rerun.now = Json::parse(result_json(answer, reference));
  if (rerun.weather) rerun.now["weather"] = rerun.then["weather"];
  rerun.changes = changes_of(without_versions(rerun.then), without_versions(rerun.now));
  rerun.why = version_changes(entry, reference, !rerun.changes.empty());
  if (given.count("set") > 0) rerun.why.insert(rerun.why.begin(), saying("keys that were given now with --set"));
  return rerun;
}

std::string day_text(const GivenDay& day, const OnGivenDay& worst, const Paper& paper) {
  const Language& language = paper.language();
  std::string text = tell(
      language,
      "{:02}-{:02}, {} to {}, {:.0f}/8 under cloud: edge stress {} at {} ({} without film), {:.2f} of what "
      "the edge bears; most likely {}, {:.2f} of the refer line.",
      day.month, day.day, format_temperature(day.lowest_k, Units::metric),
      format_temperature(day.highest_k, Units::metric), 8.0 * day.cloud, stress_text(worst.stress_pa, Units::metric),
      format_hour(worst.local_hour), stress_text(worst.stress_without_film_pa, Units::metric), worst.stress_ratio,
      stress_text(worst.middle_stress_pa, Units::metric), worst.middle_ratio);
  if (day.cloud > 0.0 && day.cloud < 1.0)
    text += " " + tell(language, "Between clouds that break the sun is as strong as under a clear sky: work that too.");
  return paper.line(tell(language, "That day"), text);
}

Json day_json(const GivenDay& day, const OnGivenDay& worst) {
  constexpr double pa_per_mpa = 1e6, kelvin_at_0_c = 273.15;
  return {{"month", day.month},
          {"day", day.day},
          {"lowest_c", day.lowest_k - kelvin_at_0_c},
          {"highest_c", day.highest_k - kelvin_at_0_c},
          {"cloud", day.cloud},
          {"edge_stress_mpa", worst.stress_pa / pa_per_mpa},
          {"edge_stress_without_film_mpa", worst.stress_without_film_pa / pa_per_mpa},
          {"stress_ratio", worst.stress_ratio},
          {"edge_stress_middle_mpa", worst.middle_stress_pa / pa_per_mpa},
          {"stress_ratio_middle", worst.middle_ratio},
          {"local_hour", worst.local_hour}};
}

std::string rerun_text(const record::Entry& entry, const Rerun& rerun, const Paper& paper) {
  const Language& language = paper.language();
  const auto verdict = [&](const Json& result) {
    return tell(language, "{}; {:.2f} of what the edge bears", told(language, result.at("verdict").get<std::string>()),
                result.at("stress_ratio").get<double>());
  };
  std::string text =
      paper.line(tell(language, "Entry"), tell(language, "{}, recorded {}", entry.number, entry.made_utc));
  text +=
      paper.line(tell(language, "Then"), verdict(rerun.then)) + paper.line(tell(language, "Now"), verdict(rerun.now));
  const std::string changed = tell(language, "Changed");
  for (const Change& change : rerun.changes)
    text += paper.line(changed, fmt::format("{}: {} -> {}", said(change.what, language), change.then, change.now));
  if (rerun.changes.empty()) text += paper.line(changed, tell(language, "nothing"));
  for (const Saying& why : rerun.why) text += paper.line(tell(language, "Because"), said(why, language));
  if (rerun.day) text += day_text(*rerun.day, *rerun.on_day, paper);
  if (rerun.weather) text += paper.line(tell(language, "Weather"), said(*rerun.weather, language));
  return text + paper.note();
}

Json rerun_json(const record::Entry& entry, const Rerun& rerun, const Reference& reference) {
  Json changes = Json::array();
  for (const Change& one : rerun.changes)
    changes.push_back({{"what", said(one.what, {})}, {"then", one.then}, {"now", one.now}});
  Json why = Json::array();
  for (const Saying& one : rerun.why) why.push_back(said(one, {}));
  return {{"schema", "sunstrain-record-rerun-1"},
          {"entry", entry.number},
          {"made_utc", entry.made_utc},
          {"changes", std::move(changes)},
          {"why", std::move(why)},
          {"weather", rerun.weather ? Json(said(*rerun.weather, {})) : Json()},
          {"given_day", rerun.day ? day_json(*rerun.day, *rerun.on_day) : Json()},
          {"then", rerun.then},
          {"now", rerun.now},
          {"safety_note", safety_note(reference)}};
}

}  // namespace

po::options_description record_rerun_options() {
  po::options_description all("Options");
  add_record_option(all);
  all.add_options()("set", po::value<Texts>()->value_name("KEY=VALUE")->composing(),
                    "over the recorded job; repeat it")("weather", po::value<std::string>()->value_name("FILE"),
                                                        "the weather file of then, where the job named one")(
      "day", po::value<std::string>()->value_name("DAY"), "work one day as it was: 2026-01-20; with the next three")(
      "low", po::value<std::string>()->value_name("TEMPERATURE"), "its lowest, outdoors")(
      "high", po::value<std::string>()->value_name("TEMPERATURE"), "its highest")(
      "sky", po::value<std::string>()->value_name("SKY"), "clear, overcast, or eighths under cloud: 3/8")(
      "fail-on-change", "exit code 1 where anything changed");
  add_print_options(all);
  return all;
}

Outcome record_rerun(const Words& words) {
  const po::variables_map given = read_options(words, record_rerun_options(), "number", "record");
  const std::int64_t number = entry_number(given, "record rerun");
  const record::Entry entry = record::Store(record_path(given), record::Store::Access::look).entry(number);
  if (!entry.job || !entry.result) throw BadInput(say("record rerun: entry {} is an erasure and has no job", number));
  const Reference reference = rules_of(entry);
  const Rerun rerun = work_again(entry, given, reference);
  const Exit exit = given.count("fail-on-change") > 0 && !rerun.changes.empty() ? failed_on : ran;
  return {given.count("json") > 0 ? rerun_json(entry, rerun, reference).dump(2) + "\n"
                                  : rerun_text(entry, rerun, paper_of(given)),
          exit};
}

}  // namespace sunstrain::cli
