// Drawing a job's unknowns, and one row of samples.
#include "sunstrain/sampler.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

#include "chain_cache.hpp"

namespace sunstrain {
namespace {

// Straight between the points of a distribution.
double quantile(const Draw& draw, double u) {
  std::size_t i = 1;
  while (i + 1 < draw.chance.size() && u > draw.chance[i]) ++i;
  const double width = draw.chance[i] - draw.chance[i - 1];
  const double share = width > 0.0 ? (u - draw.chance[i - 1]) / width : 0.0;
  return draw.value[i - 1] + share * (draw.value[i] - draw.value[i - 1]);
}

// Of a key known in part anything in its range alike, or its alternatives; of another the most likely value at its
// chance, the others alike.
Value value_of_key(const OpenKey& open, const Job& job, double u, const Reference& reference) {
  if (open.candidates.size() == 1) return open.candidates.front();
  if (const auto known = job.partly.find(open.key); known != job.partly.end()) {
    if (const auto& range = known->second.range) return range->first + u * (range->second - range->first);
    const auto count = static_cast<double>(open.candidates.size());
    return open.candidates[std::min(static_cast<std::size_t>(u * count), open.candidates.size() - 1)];
  }
  const double middle_chance = constant(reference, "sample_likely_chance");
  const double other_chance = (1.0 - middle_chance) / static_cast<double>(open.candidates.size() - 1);
  double below = 0.0;
  for (const Value& value : open.candidates) {
    below += value == open.middle ? middle_chance : other_chance;
    if (u < below) return value;
  }
  return open.candidates.back();
}

// The rows that have a say in a job, one a quantity.
std::vector<const Draw*> draws_for(const Facts& complete, const Reference& reference) {
  std::vector<const Draw*> draws;
  for (const Draw& draw : reference.draws) {
    const auto same = [&](const Draw* other) { return other->of == draw.of; };
    if (std::none_of(draws.begin(), draws.end(), same) && holds(draw.when, complete) == Truth::yes)
      draws.push_back(&draw);
  }
  return draws;
}

// An absent key in whose place something else is drawn.
bool drawn_otherwise(const std::string& key, const Job& job, const Reference& reference) {
  if (job.partly.contains(key)) return false;
  return std::any_of(reference.draws.begin(), reference.draws.end(),
                     [&](const Draw& draw) { return draw.asks == key; });
}

void put_reflectance(Job& job, const std::string& table, double position, const Reference& reference) {
  const ReflectanceRange possible = possible_reflectances(job, table, reference);
  job.values[table + ".solar_reflectance"] = possible.least + position * (possible.most - possible.least);
}

// Haze that takes more from the beam sends more diffuse light: its optical depth falls.
void put_haze(Place& place, double factor, const Reference& reference) {
  const double diffuse_per_beam = constant(reference, "diffuse_depth_per_beam");
  for (std::size_t month = 0; month < place.tau_beam.size(); ++month) {
    const double more = (factor - 1.0) * place.tau_beam[month];
    place.tau_beam[month] += more;
    place.tau_diffuse[month] += diffuse_per_beam * more;
  }
}

void put(Case& pane, Draw::Of of, double value, const Reference& reference) {
  if (of == Draw::Of::air_k) {
    pane.place.coldest_k += value;
    pane.place.hottest_k += value;
  } else if (of == Draw::Of::beam_depth) {
    put_haze(pane.place, value, reference);
  } else if (of == Draw::Of::wind_m_s) {
    pane.outdoor_convection_w_m2k = outdoor_convection_w_m2k(value, reference);
  } else if (of == Draw::Of::frame_beam_share) {
    pane.frame_beam_share = value;
  } else if (of == Draw::Of::bottom_colder_k) {
    pane.bottom_edge_colder_k = value;
  }
}

}  // namespace

// What a sample is worked from: equal ones have equal answers.
struct Sampler::Drawn {
  Facts values;
  std::vector<std::pair<Draw::Of, double>> put;
  bool operator<(const Drawn& other) const { return put != other.put ? put < other.put : values < other.values; }
};

std::optional<std::size_t> Sampler::column_of(const std::string& key, std::optional<Draw::Of> of) const {
  for (std::size_t i = 0; i < unknowns_.size(); ++i)
    if (unknowns_[i].of == of && (of || unknowns_[i].name == key)) return i;
  return std::nullopt;
}

// Keys are met by drawing: one that is open in none of so many samples hardly ever is, and is taken at its middle.
Sampler::Sampler(const Job& job, const Reference& reference, double raised_by)
    : job_(job), reference_(reference), raised_by_(raised_by) {
  constexpr std::uint64_t rounds = 512, seed = 0;
  std::vector<SampledUnknown> keys, others;
  for (std::uint64_t round = 0; round < rounds; ++round) {
    RandomStream random(seed, round);
    const auto meet = [&](const OpenKey& open) {
      if (open.candidates.size() == 1 || drawn_otherwise(open.key, job, reference)) return open.middle;
      const auto same = [&](const SampledUnknown& known) { return known.name == open.key; };
      if (std::none_of(keys.begin(), keys.end(), same)) keys.push_back({open.key, open.key, std::nullopt});
      return value_of_key(open, job, random.uniform(), reference);
    };
    const Facts complete = resolve(job, meet, reference).job.values;
    for (const Draw* draw : draws_for(complete, reference)) {
      const auto same = [&](const SampledUnknown& known) { return known.of == draw->of; };
      if (std::none_of(others.begin(), others.end(), same)) others.push_back({draw->name, draw->asks, draw->of});
    }
  }
  unknowns_ = std::move(keys);
  unknowns_.insert(unknowns_.end(), others.begin(), others.end());
}

Sampler::Drawn Sampler::draw(std::span<const double> u) const {
  const auto pick = [&](const OpenKey& open) {
    const auto column = column_of(open.key, std::nullopt);
    return column ? value_of_key(open, job_, u[*column], reference_) : open.middle;
  };
  Job complete = resolve(job_, pick, reference_).job;
  Drawn drawn;
  for (const Draw* draw : draws_for(complete.values, reference_)) {
    const auto column = column_of({}, draw->of);
    if (!column) continue;
    const double value = quantile(*draw, u[*column]);
    if (draw->of == Draw::Of::film_reflectance)
      put_reflectance(complete, "film", value, reference_);
    else if (draw->of == Draw::Of::second_film_reflectance)
      put_reflectance(complete, "second_film", value, reference_);
    else
      drawn.put.emplace_back(draw->of, value);
  }
  drawn.values = std::move(complete.values);
  return drawn;
}

SampleValue Sampler::value_of(const Drawn& drawn, ChainCache& cache) const {
  Case pane = build_case({job_.source, drawn.values, {}}, Run::middle, reference_);
  for (const auto& [of, at] : drawn.put) put(pane, of, at, reference_);
  cache.shed();
  const YearPeaks peaks = likely_worst_of_year(pane, pane.after, reference_, cache);
  SampleValue value{0.0, 0.0};
  double risk = 0.0;
  for (std::size_t lite = 0; lite < peaks.lites.size(); ++lite) {
    const double go_pa = allowable_stress(pane.strengths[lite], reference_).go_pa;
    value.ratio = std::max(value.ratio, raised_by_ * peaks.lites[lite].stress_pa / go_pa);
    risk += peaks.lites[lite].likely_risk;
  }
  value.load = std::pow(risk, 1.0 / constant(reference_, "weibull_best_m"));
  return value;
}

SampleValue Sampler::value_at(std::span<const double> u, ChainCache& cache) const {
  if (u.size() != unknowns_.size()) throw std::invalid_argument("a sample takes a place for each unknown");
  return value_of(draw(u), cache);
}

// A row is whole or drawn again as a whole: nothing of it may depend on which of its combinations can be.
SampleRow Sampler::row(std::uint64_t seed, std::uint64_t index, ChainCache& cache) const {
  constexpr std::size_t most_again = 1000;
  RandomStream random(seed, index);
  SampleRow row;
  for (;; ++row.drawn_again) {
    std::vector<double> a(unknowns_.size()), b(unknowns_.size());
    for (double& u : a) u = random.uniform();
    for (double& u : b) u = random.uniform();
    try {
      std::vector<SampleValue> values;
      std::map<Drawn, SampleValue> worked;  // where an unknown changes nothing, or comes up alike in A and B
      for (std::size_t i = 0; i < samples_a_row(); ++i) {
        Drawn drawn = draw(mixed_row(a, b, i));
        const auto found = worked.find(drawn);
        values.push_back(found != worked.end() ? found->second : value_of(drawn, cache));
        if (found == worked.end()) worked.emplace(std::move(drawn), values.back());
      }
      const std::size_t k = unknowns_.size();
      row.ratio = {values[k].ratio, values[k + 1].ratio, {}};
      row.load = {values[k].load, values[k + 1].load, {}};
      for (std::size_t i = 0; i < k; ++i) {
        row.ratio.mixed.push_back(values[i].ratio);
        row.load.mixed.push_back(values[i].load);
      }
      return row;
    } catch (const BadInput&) {
      if (row.drawn_again == most_again) throw;
    }
  }
}

}  // namespace sunstrain
