// The frame rows of reference/frames.toml against the sections that they stand for (tests/section/frames), worked here:
// the section tool itself meets the standards' reference sections (tests/published/section_published_test.cpp).
#include <catch2/catch.hpp>
#include <fstream>

#include "support/frame_fit.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

namespace {

FrameShape shape_of(const std::string& kind) {
  return read_frame_shape(SUNSTRAIN_SOURCE_DIR "/tests/section/frames/" + kind + ".toml");
}

const std::size_t kinds = builtin_reference().frames.size();

}  // namespace

TEST_CASE("Frame rows: each row and its section have the same seals") {
  for (const FrameKind& row : builtin_reference().frames) {
    const FrameKind seals = shape_of(row.name).seals;
    CAPTURE(row.name);
    CHECK(seals.name == row.name);
    CHECK(seals.outer_lip == row.outer_lip);
    CHECK(seals.seal_thickness_m == Approx(row.seal_thickness_m));
    CHECK(seals.seal_height_m == Approx(row.seal_height_m));
    CHECK(seals.seal_conductivity_w_mk == Approx(row.seal_conductivity_w_mk));
    CHECK(seals.soft_strip_to_m == Approx(row.soft_strip_to_m));
    CHECK(seals.soft_strip_resistance_m2k_w == Approx(row.soft_strip_resistance_m2k_w));
    CHECK(seals.joint_area_m == Approx(row.joint_area_m));
    CHECK(seals.joint_resistance_mk_w == Approx(row.joint_resistance_mk_w));
  }
}

TEST_CASE("Frame rows: a row's eight numbers are what a fit to the frame's section gives", "[slow]") {
  const FrameKind& row = builtin_reference().frames[GENERATE(range(std::size_t{0}, kinds))];
  const std::size_t lites = GENERATE(1u, 2u);
  const std::vector<FitTarget> targets = fit_targets(shape_of(row.name), lites);
  const double row_k = rms(misses_k(row, targets));
  const double fitted_k = rms(misses_k(fitted_row(row, targets), targets));
  CAPTURE(row.name, lites, row_k, fitted_k);
  CHECK(fitted_k <= row_k);
  CHECK(row_k < 0.75);            // of some 40 K between outdoors and the room
  CHECK(row_k < fitted_k + 0.3);  // the row was fitted to bites of 8 mm too, and other airs
}

TEST_CASE("Frame rows: the sealed row serves a unit of three lites, whose middle one both spacers warm", "[slow]") {
  const FrameKind& row = builtin_reference().frames[GENERATE(range(std::size_t{0}, kinds))];
  const double row_k = rms(misses_k(row, fit_targets(shape_of(row.name), 3)));
  CAPTURE(row.name, row_k);
  CHECK(row_k < 0.9);
}

TEST_CASE("Frame rows: a wall's section keeps the day's swing from the edge as much as its row does") {
  // What tests/unit/heat_day_test.cpp holds the rows' heat capacities to.
  struct Row {
    const char* kind;
    std::size_t lites;
    double lag_min, amplitude;
  };
  for (const Row& row : {Row{"masonry", 1, 100, 0.77}, Row{"masonry", 2, 116, 0.72}, Row{"brick", 1, 68, 0.86},
                         Row{"brick", 2, 83, 0.83}}) {
    CAPTURE(row.kind, row.lites);
    const Spacer& spacer = row_named(builtin_reference().spacers, "metal");
    const EdgeSwing swing =
        section_swing({shape_of(row.kind), row.lites, 0.012, spacer}, {20.0, 8.0, 6.3}, {row.lites - 1, 0.0});
    CHECK(swing.lag_min == Approx(row.lag_min).margin(4.0));
    CHECK(swing.amplitude == Approx(row.amplitude).margin(0.01));
  }
}

namespace {

std::string refusal_of(const std::string& text) {
  const std::string path = "frame_shape_test.toml";
  std::ofstream(path) << text;
  try {
    read_frame_shape(path);
  } catch (const std::runtime_error& refused) {
    std::remove(path.c_str());
    return std::string(refused.what()).substr(path.size() + 2);
  }
  std::remove(path.c_str());
  return "taken";
}

}  // namespace

TEST_CASE("Frame shape: a section file that cannot be read says why in one line") {
  const std::string head =
      "name = \"x\"\nouter_lip = true\nseal_thickness_mm = 3\nseal_height_mm = 8\nseal_conductivity_w_mk = 0.3\n";
  const auto part = [&](const std::string& of) { return refusal_of(head + "part = [{ " + of + " }]\n"); };
  CHECK(part("w_mk = 1, x = [\"out - 3\", \"in\"], y = [\"edge\", \"sight\"]") == "taken");
  CHECK(part("w_mk = 1, x = [\"out - 3\", \"left\"], y = [\"edge\", \"sight\"]") ==
        "\"left\" is no place: one of out, middle, in, then + or - and mm");
  CHECK(part("w_mk = 1, x = [\"out * 3\", \"in\"], y = [\"edge\", \"sight\"]") ==
        "\"out * 3\" is no place: one of out, middle, in, then + or - and mm");
  CHECK(part("w_mk = 1, x = [\"in\", \"out\"], y = [\"edge\", \"sight\"]") ==
        "a part's x and y must each go from the lesser to the greater place");
  CHECK(part("x = [\"out\", \"in\"], y = [\"edge\", \"sight\"]") == "a part has w_mk, or as a cavity emissivity");
  CHECK(part("w_mk = -1, x = [\"out\", \"in\"], y = [\"edge\", \"sight\"]") ==
        "w_mk must be a number of at least 0.0001");
  CHECK(part("w_mk = 1, x = [\"out\"], y = [\"edge\", \"sight\"]") == "x must be two places, as [\"out - 3\", \"in\"]");
  CHECK(part("w_mk = 1, z = 1") == "a part has of, x, y, j_m3k and w_mk or emissivity, not z");
  CHECK(refusal_of("outer_lip = true\n") == "name must be the frame's name");
}
