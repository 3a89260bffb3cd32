#include "sunstrain/limit.hpp"

#include <algorithm>
#include <map>

#include "film_strength.hpp"
#include "helps.hpp"
#include "unknowns.hpp"

namespace sunstrain {
namespace {

using internal::Percents;

// The films that were tried on one pane, by whole percents: the searches for several lines meet many of them again.
class Tried {
 public:
  Tried(const Job& job, Percents range, const Reference& reference, ChainCache& cache,
        const std::function<void()>& one_more)
      : job_(job), range_(range), reference_(reference), cache_(cache), one_more_(one_more) {}

  const Assessment& with(int percent) {
    if (const auto found = tried_.find(percent); found != tried_.end()) return found->second;
    const Job job = internal::with_absorptance(job_, 0.01 * percent);
    const Choice choice = internal::worst_choice(job, reference_, cache_);
    tried_.emplace(percent, internal::assess_as_taken(job, choice, reference_, cache_));
    if (one_more_) one_more_();
    return tried_.at(percent);
  }

  FilmLimit limit(Verdict line) {
    const auto stay = films_within(line, &Assessment::verdict);
    FilmLimit limit{reach(stay), reach(films_within(line, &Assessment::figures)), {}, {}};
    limit.with = with(stay ? stay->most : range_.least);
    if (stay && stay->most == range_.most) return limit;
    const Assessment& beyond = with(stay ? stay->most + 1 : range_.least);
    for (const Rule& rule : beyond.rules)
      if (verdict_of(rule.severity) > line) limit.held.push_back(rule);
    for (const OpenRule& open : beyond.open_rules)
      if (verdict_of(open.rule.severity) > line) limit.held.push_back(open.rule);
    return limit;
  }

 private:
  std::optional<Percents> films_within(Verdict line, Verdict Assessment::*verdict) {
    return internal::staying_percents(range_, [&](int percent) { return with(percent).*verdict <= line; });
  }

  Reach reach(const std::optional<Percents>& stay) const {
    if (!stay) return {};
    const bool every = stay->least == range_.least && stay->most == range_.most;
    return {every ? Reach::Kind::every_film : Reach::Kind::up_to, 0.01 * stay->most, 0.01 * stay->least};
  }

  Job job_;
  Percents range_;
  const Reference& reference_;
  ChainCache& cache_;
  const std::function<void()>& one_more_;
  std::map<int, Assessment> tried_;
};

}  // namespace

FilmLimits film_limits(const Job& job, const Reference& reference, const std::function<void()>& tried) {
  ChainCache cache;
  const Percents range = internal::possible_percents(job, reference);
  if (range.least > range.most) assess(internal::with_absorptance(job, 0.5), reference);  // says what is wrong
  FilmLimits limits{job, 0.01 * range.least, 0.01 * range.most, {}, number_of(job, "film.solar_reflectance")};
  Tried as_it_is(job, range, reference, cache, tried);
  limits.panes.push_back({"", as_it_is.limit(Verdict::go), as_it_is.limit(Verdict::caution)});
  for (const internal::Mend& mend : internal::mends_of(job, limits.panes.front().go.with.bad_end, reference)) {
    Tried once_mended(internal::with_mend(job, mend), range, reference, cache, tried);
    limits.panes.push_back({mend.row->words, once_mended.limit(Verdict::go), once_mended.limit(Verdict::caution)});
  }
  return limits;
}

}  // namespace sunstrain
