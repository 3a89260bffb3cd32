// Sheets on paper: what is typed stays text, pictures show the answer's own hour, colors rise evenly in lightness.
#include <algorithm>
#include <cmath>
#include <numeric>

#include "../../src/paper/drawing.hpp"
#include "../../src/paper/html.hpp"
#include "sunstrain/paper/sheet.hpp"
#include "support/job_text.hpp"

using namespace job_text;

namespace {

WorstHour hour_of(const Assessment& a) { return worst_hour(a, reference(), 9, 9); }

double highest(const WorstHour& hour) {
  double most = -1e12;
  for (const auto& side : hour.stress_pa) most = std::max(most, *std::max_element(side.begin(), side.end()));
  return most;
}

// CIE 1976 L* (ISO/CIE 11664-4, recalled) of an sRGB color (IEC 61966-2-1, recalled).
double lightness(const ScaleColor& c) {
  const auto linear = [](double v) { return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4); };
  const double y = 0.2126 * linear(c.red) + 0.7152 * linear(c.green) + 0.0722 * linear(c.blue);
  return y > 216.0 / 24389.0 ? 116.0 * std::cbrt(y) - 16.0 : y * 24389.0 / 27.0;
}

std::string refusal(const char* toml) {
  try {
    read_papers_toml(toml, "p.toml");
  } catch (const BadInput& error) {
    return error.what();
  }
  return "";
}

}  // namespace

TEST_CASE("Paper: text is escaped, whatever it holds", "[paper]") {
  using paper::escaped;
  CHECK(escaped("<a href=\"x\">'&'</a>") == "&lt;a href=&quot;x&quot;&gt;&#39;&amp;&#39;&lt;/a&gt;");
  CHECK(escaped("a\x01"
                "b\x7F") ==
        "a\xEF\xBF\xBD"
        "b\xEF\xBF\xBD");
  // U+202E and U+2066 turn what stands around them; U+200F is a letter's own mark.
  CHECK(escaped("x\u202Ey\u2066z\u200F") == "xyz\u200F");
  CHECK(escaped("\xE2") == "\xE2");
  CHECK(paper::typed("a\nb\n\nc<").code == "<bdi>a<br>\nb<br>\n<br>\nc&lt;</bdi>");
  CHECK(paper::element("p", "x", {{"title", "\"><script>"}}).code == "<p title=\"&quot;&gt;&lt;script&gt;\">x</p>");
}

TEST_CASE("Paper: letters are counted as a reader sees them", "[paper]") {
  CHECK(paper::visible_letters({"<p title=\"long\">a&amp;b</p>"}) == 3);
  CHECK(paper::visible_letters(paper::text("ni\u00F1o")) == 4);
  CHECK(paper::visible_letters({}) == 0);
}

TEST_CASE("Paper: round steps and labels that keep apart", "[paper]") {
  CHECK(paper::round_step(0.0, 10.0, 5) == Approx(2.0));
  CHECK(paper::round_step(-3.0, 44.0, 9) == Approx(10.0));
  CHECK(paper::round_step(0.0, 0.3, 3) == Approx(0.1));
  CHECK(paper::round_values(-1.0, 5.0, 2.0) == std::vector<double>{0.0, 2.0, 4.0});
  const std::vector<double> at = paper::spread({50.0, 52.0, 10.0, 99.0}, 10.0, 0.0, 100.0);
  CHECK(at == std::vector<double>{50.0, 60.0, 10.0, 99.0});
  const std::vector<double> low = paper::spread({98.0, 99.0, 97.0}, 10.0, 0.0, 100.0);
  CHECK(low == std::vector<double>{90.0, 100.0, 80.0});
}

TEST_CASE("Paper: the colors of a map grow lighter by even steps", "[paper]") {
  const std::vector<ScaleColor>& scale = reference().warmth_scale;
  REQUIRE(scale.size() >= 5);
  const double rise = (lightness(scale.back()) - lightness(scale.front())) / (scale.back().share - scale.front().share);
  CHECK(rise > 60.0);
  for (std::size_t i = 1; i < scale.size(); ++i) {
    const double step = (lightness(scale[i]) - lightness(scale[i - 1])) / (scale[i].share - scale[i - 1].share);
    CHECK(step == Approx(rise).epsilon(0.15));
  }
}

TEST_CASE("Paper: the pictures are of the answer's own hour", "[paper]") {
  for (const auto& keys : {std::vector<const char*>{"glass.panes=1", "film.solar_absorptance=0.4"},
                           std::vector<const char*>{"glass.panes=2", "film.solar_absorptance=0.3", "shading.pattern=L"},
                           std::vector<const char*>{"glass.panes=1", "film.solar_absorptance=0.4",
                                                    "shading.overhang_depth=0.6 m", "shading.overhang_height=0.1 m"}}) {
    std::vector<std::string> settings(keys.begin(), keys.end());
    settings.emplace_back("inside.shade=none");
    Job job = sound({"inside.shade=none"});
    for (const std::string& setting : settings) set_key(job, setting, reference());
    const Assessment a = assess(job, reference());
    const LiteFigures& worst = a.lites[a.governing_lite].after;
    const WorstHour hour = hour_of(a);
    // The peak between the points is found by a cubic and may lie a little above them.
    CHECK(highest(hour) <= worst.peak_stress_pa * (1.0 + 1e-9));
    CHECK(highest(hour) == Approx(worst.peak_stress_pa).epsilon(0.01));
    const auto& hours = hour.day.local_hour;
    const auto at = static_cast<std::size_t>(std::min_element(hours.begin(), hours.end(),
                                                              [&](double x, double y) {
                                                                return std::abs(x - worst.when.local_hour) <
                                                                       std::abs(y - worst.when.local_hour);
                                                              }) -
                                             hours.begin());
    CHECK(hour.day.middle_k[at] == Approx(worst.center_k).margin(0.05));
    CHECK(hour.day.edge_k[at] == Approx(worst.edge_k).margin(0.05));
    CHECK(hours.size() == hour.day.sun_w_m2.size());
  }
}

TEST_CASE("Paper: fields of light cover the glass, each point once", "[paper]") {
  for (const char* pattern : {"none", "head-band", "L", "half", "diagonal", "narrow-frame", "sun-patch"}) {
    const Job job = sound({"glass.panes=1", "film.solar_absorptance=0.4", "inside.shade=none"});
    Job with = job;
    settle(with, "shading.pattern", std::string(pattern));
    const Assessment a = assess(with, reference());
    const WorstHour hour = hour_of(a);
    const auto fields = light_fields(hour.light, hour.glass_width_m(), hour.glass_height_m());
    double area = 0.0, dark = 0.0;
    for (const LightField& f : fields) {
      const double one = (f.right_m - f.left_m) * (f.top_m - f.bottom_m);
      area += one;
      dark += one * (1.0 - f.share);
      CHECK((f.share >= 0.0 && f.share <= 1.0));
    }
    const double whole = hour.glass_width_m() * hour.glass_height_m();
    CHECK(area == Approx(whole));
    if (std::string(pattern) == "none") CHECK(dark == Approx(0.0).margin(1e-9));
    // Halves of a rectangle; steps along the diagonal leave as much out as they take in, but for the middles on it.
    if (std::string(pattern) == "half") CHECK(dark == Approx(0.5 * whole).epsilon(0.02));
    if (std::string(pattern) == "diagonal") CHECK(dark == Approx(0.5 * whole).epsilon(0.03));
  }
}

TEST_CASE("Paper: what people type is read, or refused in a line", "[paper]") {
  const Papers papers = read_papers_toml(
      "[customer]\nname = ' A & B '\nshown_to = ['x', 'y']\n[film]\nlot = '7'\n[[on_site]]\npane = 'stair'\n"
      "photos = ['a.jpg', 'b.jpg']\n[[guidance]]\nwhose = 'z'\n[[guidance]]\nwhose = 'w'\n",
      "p.toml");
  CHECK(papers.customer == "A & B");
  CHECK(papers.shown_to.size() == 2);
  CHECK(papers.film_lot == "7");
  REQUIRE(papers.on_site.size() == 1);
  CHECK(papers.on_site.front().photos.back().path == "b.jpg");
  CHECK(papers.guidance.size() == 2);
  CHECK(refusal("[custmer]\n").find("the nearest is customer") != std::string::npos);
  CHECK(refusal("[customer]\nadress = 'x'\n").find("the nearest is address") != std::string::npos);
  CHECK(refusal("[[customer]]\nname = 'x'\n").find("is written [customer]") != std::string::npos);
  CHECK(refusal("[cover]\nterms = 'x'\n").find("[[cover]]") != std::string::npos);
  CHECK(refusal("[film]\nlot = 7\n").find("a text between quotes") != std::string::npos);
}
