#include "sunstrain/sobol.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace sunstrain;

TEST_CASE("random streams: even over 0 to 1, apart from each other, the same everywhere") {
  constexpr int draws = 20000;
  RandomStream one(1, 0), same(1, 0), other(1, 1), reseeded(2, 0);
  double sum = 0.0, squares = 0.0, with_other = 0.0, with_reseeded = 0.0;
  for (int i = 0; i < draws; ++i) {
    const double u = one.uniform();
    REQUIRE(u >= 0.0);
    REQUIRE(u < 1.0);
    REQUIRE(same.uniform() == u);
    sum += u;
    squares += u * u;
    with_other += (u - 0.5) * (other.uniform() - 0.5);
    with_reseeded += (u - 0.5) * (reseeded.uniform() - 0.5);
  }
  const double four_sigma = 4.0 / std::sqrt(12.0 * draws);
  CHECK(sum / draws == Approx(0.5).margin(four_sigma));
  CHECK(squares / draws == Approx(1.0 / 3.0).margin(four_sigma));
  CHECK(with_other / draws == Approx(0.0).margin(four_sigma / std::sqrt(12.0)));
  CHECK(with_reseeded / draws == Approx(0.0).margin(four_sigma / std::sqrt(12.0)));
}

TEST_CASE("random streams: whole numbers come up alike") {
  RandomStream random(7, 3);
  std::vector<int> met(6, 0);
  for (int i = 0; i < 6000; ++i) ++met.at(random.below(6));
  for (int count : met) CHECK(count == Approx(1000).margin(130));  // 4.5 sigma
  CHECK(random.below(1) == 0);
}

TEST_CASE("a mixed row takes one unknown from B") {
  const std::vector<double> a{1, 2, 3}, b{4, 5, 6};
  CHECK(mixed_row(a, b, 1) == std::vector<double>{1, 5, 3});
  CHECK(mixed_row(a, b, 3) == a);
  CHECK(mixed_row(a, b, 4) == b);
  CHECK_THROWS_AS(mixed_row(a, b, 5), std::invalid_argument);
}

TEST_CASE("estimates: a mean's interval is that of the normal law") {
  constexpr std::size_t rows = 400;
  std::vector<double> x(rows);
  RandomStream random(3, 0);
  double mean = 0.0, variance = 0.0;
  for (double& value : x) mean += (value = random.uniform()) / rows;
  for (double value : x) variance += (value - mean) * (value - mean) / rows;
  const Estimate found = estimates(rows, 5, [&](std::span<const double> weights) {
                           double sum = 0.0;
                           for (std::size_t j = 0; j < rows; ++j) sum += weights[j] * x[j];
                           return std::vector<double>{sum / rows};
                         }).front();
  const double reach = 1.96 * std::sqrt(variance / rows);
  CHECK(found.value == Approx(mean));
  CHECK(found.high - mean == Approx(reach).epsilon(0.1));
  CHECK(mean - found.low == Approx(reach).epsilon(0.1));
  CHECK_THROWS_AS(estimates(0, 5, [](auto) { return std::vector<double>{}; }), std::invalid_argument);
}

TEST_CASE("Sobol's indices: an unknown that changes nothing owns nothing, one alone owns all, a constant has none") {
  std::vector<SobolRow> rows(100);
  RandomStream random(1, 0);
  for (SobolRow& row : rows) {
    const double a = random.uniform(), b = random.uniform();
    row = {a, b, {b, a}};
  }
  const auto indices = sobol_indices(rows, 1);
  CHECK(indices[0].first.value == Approx(1.0).epsilon(0.3));
  CHECK(indices[0].first.low <= 1.0);
  CHECK(indices[0].first.high >= 1.0);
  CHECK(indices[1].first.value == 0.0);
  CHECK(indices[1].total.high == 0.0);
  const std::vector<SobolRow> level(10, SobolRow{2.0, 2.0, {2.0}});
  CHECK(sobol_indices(level, 1).front().total.value == 0.0);
  const std::vector<SobolRow> uneven{{1.0, 2.0, {1.0}}, {1.0, 2.0, {}}};
  CHECK_THROWS_AS(sobol_indices(uneven, 1), std::invalid_argument);
}
