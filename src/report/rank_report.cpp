#include "sunstrain/report/rank_report.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "sunstrain/report/safety_note.hpp"
#include "words.hpp"

namespace sunstrain {
namespace {

using namespace report;

// The columns of figures.
std::string figure_columns(const std::string& share, const std::string& all, const std::string& by_film,
                           const std::string& daylight) {
  return fmt::format("{:>6}{:>9}{:>9}{:>10}", share, all, by_film, daylight);
}

std::size_t marks_width(const Language& language) { return verdict_mark_width(language); }

// Columns that the places of so many films take.
std::size_t places_width(std::size_t films) { return std::max<std::size_t>(2, std::to_string(films).size()); }

std::string heading(std::size_t films, const Language& language, int width) {
  const std::size_t places = places_width(films);
  const std::string labels = fmt::format("{:{}} {:<{}}{}", "", places, tell(language, "verdict"),
                                         marks_width(language) - 1, tell(language, "film"));
  return fmt::format("{:>{}}\n", tell(language, "sun heat kept out  daylight"), width) +
         named_row(labels, 0,
                   figure_columns(tell(language, "share"), tell(language, "in all"), tell(language, "by film"),
                                  tell(language, "on sheet")),
                   width);
}

// Whole percents; nothing is "-0 %".
std::string share_text(double share) { return percent_text(std::round(100.0 * share) / 100.0 + 0.0); }

std::string film_row(std::size_t place, std::size_t films, const FilmOnPane& film, const std::string& name,
                     const Language& language, const TextStyle& style) {
  const std::size_t places = places_width(films), margin = places + marks_width(language);
  const std::string padding(marks_width(language) - columns(verdict_mark(language, film.verdict, false)), ' ');
  const std::string mark =
      fmt::format("{:>{}}{}", place, places, verdict_mark(language, film.verdict, style.color)) + padding;
  const std::string figures = figure_columns(fmt::format("{:.2f}", film.stress_ratio), share_text(film.heat_kept_out()),
                                             share_text(film.heat_cut()),
                                             film.daylight ? share_text(*film.daylight) : tell(language, "not given"));
  return mark + named_row(name, margin, figures, style.width);
}

// "1, 3 to 5"; the places are in their order.
std::string places_text(const Language& language, const std::vector<std::size_t>& places) {
  std::string text;
  for (std::size_t i = 0; i < places.size();) {
    std::size_t last = i;
    while (last + 1 < places.size() && places[last + 1] == places[last] + 1) ++last;
    text += text.empty() ? "" : ", ";
    text += last == i       ? fmt::format("{}", places[i])
            : last == i + 1 ? fmt::format("{}, {}", places[i], places[last])
                            : tell(language, "{} to {}", places[i], places[last]);
    i = last + 1;
  }
  return text;
}

std::string films_text(const Language& language, const std::vector<std::size_t>& places, std::size_t of) {
  if (places.size() == of) return of == 1 ? tell(language, "the film") : tell(language, "every film");
  const std::string text = places_text(language, places);
  return places.size() == 1 ? tell(language, "film {}", text) : tell(language, "films {}", text);
}

// Blocks of the same label: it stands before the first.
class Labeled {
 public:
  Labeled(std::string label, int width) : label_(std::move(label)), width_(width) {}
  void add(const std::string& line) { text_ += labeled(text_.empty() ? label_ : "", line, label_columns, width_); }
  const std::string& text() const { return text_; }

 private:
  std::string label_, text_;
  int width_;
};

std::string left_out_text(LeftOut::Why why, std::ptrdiff_t films, const RankChoice& choice, const Language& language) {
  switch (why) {
    case LeftOut::Why::verdict:
      return tell(language, "{} worse than {}", films, verdict_words(language, choice.at_worst));
    case LeftOut::Why::heat:
      return tell(language, "{} that keep out less than {}", films, share_text(choice.least_heat_kept_out));
    case LeftOut::Why::daylight:
      return tell(language, "{} under {} daylight", films, share_text(choice.least_daylight));
    case LeftOut::Why::daylight_not_given:
      return tell(language, "{} whose daylight is not given", films);
    case LeftOut::Why::beyond_first:
      return tell(language, "{} further down", films);
  }
  return "";
}

std::string left_out_block(const Ranking& ranking, const RankChoice& choice, const Language& language,
                           const TextStyle& style) {
  using Why = LeftOut::Why;
  std::string text;
  for (const Why why : {Why::verdict, Why::heat, Why::daylight, Why::daylight_not_given, Why::beyond_first}) {
    const auto films = std::count_if(ranking.left_out.begin(), ranking.left_out.end(),
                                     [&](const LeftOut& film) { return film.why == why; });
    if (films > 0) text += (text.empty() ? "" : ", ") + left_out_text(why, films, choice, language);
  }
  return text.empty() ? "" : labeled(tell(language, "Left out"), text, label_columns, style.width);
}

std::string errors_block(const RankedPane& pane, const Language& language, const TextStyle& style, bool own_errors) {
  Labeled block(tell(language, "No answer"), style.width);
  std::size_t not_tried = 0;
  for (std::size_t i = 0; i < pane.films.size(); ++i) {
    const FilmWords& film = pane.words[i];
    if (!pane.films[i] && film.error.empty()) ++not_tried;
    if (!film.error.empty() && (own_errors || !film.no_film)) block.add(fmt::format("{}: {}", film.name, film.error));
  }
  if (not_tried > 0) block.add(tell(language, "{} films not tried: stopped before them", not_tried));
  return block.text();
}

struct Spoken {
  Severity severity;
  std::string text;
};

// The rules that ask or refer about one film, those that an unknown leaves open among them.
std::vector<Spoken> guidance_on(const FilmOnPane& film, const Reference& reference, Units units) {
  std::vector<Spoken> spoken;
  for (const Rule& rule : film.rules) {
    if (rule.severity != Severity::note)
      spoken.push_back({rule.severity, rule_words(reference.language, rule) + ": " + rule.text});
  }
  for (const OpenRule& open : film.open_rules)
    spoken.push_back({open.rule.severity, open_rule_text(open, reference, units)});
  return spoken;
}

// What guidance says, each with the films that it speaks of.
std::string guidance_block(const RankedPane& pane, const Ranking& ranking, const Reference& reference,
                           const TextStyle& style) {
  struct OnFilms {
    Spoken spoken;
    std::vector<std::size_t> places;
  };
  std::vector<OnFilms> all;
  for (std::size_t place = 1; place <= ranking.shown.size(); ++place) {
    for (Spoken& spoken : guidance_on(*pane.films[ranking.shown[place - 1]], reference, style.units)) {
      const auto known =
          std::find_if(all.begin(), all.end(), [&](const OnFilms& one) { return one.spoken.text == spoken.text; });
      if (known == all.end())
        all.push_back({std::move(spoken), {place}});
      else
        known->places.push_back(place);
    }
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const OnFilms& a, const OnFilms& b) { return a.spoken.severity > b.spoken.severity; });
  Labeled block(tell(reference.language, "Guidance"), style.width);
  for (const auto& [spoken, places] : all)
    block.add(fmt::format("{}: {}", films_text(reference.language, places, ranking.shown.size()), spoken.text));
  return block.text();
}

std::string unknown_block(const RankedPane& pane, const Ranking& ranking, const Reference& reference,
                          const TextStyle& style) {
  std::map<std::pair<std::string, Value>, std::vector<std::size_t>> decided;
  for (std::size_t place = 1; place <= ranking.shown.size(); ++place) {
    for (const Deciding& unknown : pane.films[ranking.shown[place - 1]]->deciding)
      decided[{unknown.key, unknown.most_likely}].push_back(place);
  }
  Labeled block(tell(reference.language, "Not known"), style.width);
  for (const auto& [unknown, places] : decided) {
    block.add(tell(reference.language, "{} decided on {}: if it is {} (most likely), go on figures",
                   key_words(reference.language, unknown.first),
                   films_text(reference.language, places, ranking.shown.size()),
                   value_text(reference, unknown.first, unknown.second, style.units)));
  }
  return block.text();
}

}  // namespace

std::string FilmWords::no_answer(const Language& language) const {
  return error.empty() ? tell(language, "not tried: stopped before it") : error;
}

std::string ranked_pane_text(const RankedPane& pane, const RankChoice& choice, const Reference& reference,
                             const TextStyle& style, bool own_errors) {
  const Language& language = reference.language;
  const Ranking ranking = rank_films(pane.films, choice);
  std::string text = labeled("", tell(language, "Films on {}", pane.title), 0, style.width);
  if (ranking.shown.empty())
    text += "    " + tell(language, "no film to show") + "\n";
  else
    text += heading(ranking.shown.size(), language, style.width);
  for (std::size_t place = 1; place <= ranking.shown.size(); ++place) {
    const std::size_t film = ranking.shown[place - 1];
    text += film_row(place, ranking.shown.size(), *pane.films[film], pane.words[film].name, language, style);
  }
  text += left_out_block(ranking, choice, language, style);
  text += errors_block(pane, language, style, own_errors);
  text += guidance_block(pane, ranking, reference, style);
  return text + unknown_block(pane, ranking, reference, style);
}

std::string rank_legend(const Reference& reference, const TextStyle& style) {
  const Language& language = reference.language;
  const auto line = [&](const std::string& label, const std::string& text) {
    return labeled(label, text, label_columns, style.width);
  };
  return line(tell(language, "Share"),
              tell(language,
                   "stress over what the edge bears: up to 1.00 is go on figures, above it caution; refer where the "
                   "most likely values are past their line too.")) +
         line(tell(language, "Sun heat"),
              tell(language,
                   "in all: of the sun's heat on the glass, what does not come in (1 - SHGC of this glass with the "
                   "film, as is most likely; no blind). By film: of what comes in without it.")) +
         line(tell(language, "Daylight"),
              tell(language,
                   "visible light let through, from the film's sheet and on the sheet's own glass; tinted or coated "
                   "glass lets through less.")) +
         line(tell(language, "Note"), safety_note(reference));
}

}  // namespace sunstrain
