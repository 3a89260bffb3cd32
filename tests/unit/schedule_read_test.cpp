#include "sunstrain/io/schedule_read.hpp"

#include "support/job_text.hpp"

using namespace job_text;

namespace {

CsvRecord record(std::vector<std::string> cells, std::size_t line = 1) { return {line, std::move(cells), {}}; }

ScheduleLayout layout(std::vector<std::string> header, char separator = ',') {
  return schedule_layout(record(std::move(header)), separator, "panes.csv", reference());
}

std::string header_refusal(const std::string& column) {
  return refusal([&] { layout({"pane.width", column}); });
}

ScheduleRow row(const ScheduleLayout& columns, std::vector<std::string> cells, const Job& defaults = {}) {
  return schedule_row(columns, record(std::move(cells), 7), defaults, reference());
}

double width(const std::string& header, const std::string& cell, char separator = ',') {
  return std::get<double>(row(layout({header}, separator), {cell}).job.values.at("pane.width"));
}

}  // namespace

TEST_CASE("a unit stands in the cell or in the header; the cell's own goes first") {
  CHECK(width("pane.width", "946 mm") == Approx(0.946));
  CHECK(width("pane.width [mm]", "946") == Approx(0.946));
  CHECK(width("Pane.Width (in)", " 37 1/4 ") == Approx(0.94615));
  CHECK(width("pane.width [mm]", "37 1/4 in") == Approx(0.94615));
  CHECK(width("pane.width [mm]", "37-1/4\"") == Approx(0.94615));
  CHECK(says(refusal([] { width("pane.width", "946"); }), {"line 7", "pane.width", "946", "no unit"}));
  const ScheduleRow fraction = row(layout({"film.solar_absorptance [%]"}), {"45"});
  CHECK(std::get<double>(fraction.job.values.at("film.solar_absorptance")) == Approx(0.45));
}

TEST_CASE("a decimal comma is one between semicolons and tabs") {
  CHECK(width("pane.width", "0,946 m", ';') == Approx(0.946));
  CHECK(width("pane.width [m]", "0,946", '\t') == Approx(0.946));
  CHECK(width("pane.width [m]", "0.946", ';') == Approx(0.946));
  for (const char* unclear : {"0,946 m", "1,200 mm"}) {
    CHECK(says(refusal([&] { width("pane.width", unclear); }), {"line 7", "pane.width", unclear}));
  }
  for (const char* unclear : {"1.200,5 mm", "1,200,000 mm"}) {
    CHECK(says(refusal([&] { width("pane.width", unclear, ';'); }), {"line 7", "pane.width", unclear}));
  }
}

TEST_CASE("a blank cell takes the default, unknown takes it out, the cell goes first") {
  const Job defaults = sound({"frame.kind=vinyl"});
  const ScheduleLayout columns = layout({"frame.kind", "pane.width"});
  CHECK(word_of(row(columns, {"", ""}, defaults).job, "frame.kind") == "vinyl");
  CHECK(word_of(row(columns, {"wood", "1 m"}, defaults).job, "frame.kind") == "wood");
  CHECK_FALSE(word_of(row(columns, {"unknown", ""}, defaults).job, "frame.kind"));
  CHECK(row(columns, {"", ""}, defaults).job.source == "line 7");
}

TEST_CASE("other columns pass through; what is nearly a key does not") {
  const ScheduleLayout columns = layout({"mark", "pane.width", "Floor", "remark", "no.", "", "room name"});
  for (const std::size_t i : {0U, 2U, 3U, 4U, 5U, 6U}) {
    CHECK(columns.columns[i].holds == ScheduleColumn::Holds::other);
  }
  CHECK(says(header_refusal("pane.widht"), {"panes.csv", "pane.widht", "the nearest is pane.width"}));
  CHECK(says(header_refusal("pane_height"), {"pane_height", "pane.height"}));
  CHECK(says(header_refusal("height"), {"height", "pane.height"}));
  CHECK(says(header_refusal("lite.1.thicknes"), {"lite.1.thickness"}));
  CHECK(says(header_refusal("frame.colour"), {"frame.color"}));
  CHECK(says(header_refusal("Quantiy"), {"quantity"}));
  CHECK(says(header_refusal("panes.anything"), {"no such key"}));
}

TEST_CASE("a first row that cannot be used") {
  CHECK(says(header_refusal("pane.width"), {"panes.csv", "pane.width", "given twice"}));
  CHECK(says(header_refusal("pane.height [kg]"), {"pane.height", "[kg]", "mm"}));
  CHECK(says(header_refusal("frame.kind [mm]"), {"frame.kind", "[mm]", "takes no unit"}));
  CHECK(says(header_refusal("weather"), {"weather", "sunstrain check"}));
  CHECK(says(refusal([] { layout({"mark", "floor"}); }), {"panes.csv", "pane.width", "--template"}));
}

TEST_CASE("a row that cannot be used names its line") {
  const ScheduleLayout columns = layout({"pane.width", "quantity"});
  CHECK(row(columns, {"1 m", "12"}).quantity == 12.0);
  CHECK(row(columns, {"1 m", "12", "", " "}).quantity == 12.0);
  CHECK(row(layout({"pane.width"}), {"1 m"}).quantity == 1.0);
  for (const char* bad : {"0", "-1", "1.5", "", "two", "1e9", "nan", "1000001"}) {
    CHECK(says(refusal([&] { row(columns, {"1 m", bad}); }), {"line 7", "quantity", "1 to 1000000"}));
  }
  CHECK(says(refusal([&] { row(columns, {"1 m"}); }), {"line 7", "has 1 cells", "2"}));
  CHECK(says(refusal([&] { row(columns, {"1 m", "1", "x"}); }), {"line 7", "has 3 cells", "2"}));
  CHECK(says(refusal([&] { row(columns, {"1 km", "1"}); }), {"line 7", "pane.width", "1 km"}));
  const CsvRecord spoiled{7, {"\"1"}, "a quote is opened and never closed"};
  CHECK(refusal([&] { schedule_row(columns, spoiled, {}, reference()); }) ==
        "line 7: a quote is opened and never closed");
}

TEST_CASE("a row as keys and texts, with the column's unit and a decimal point") {
  const ScheduleLayout columns = layout({"pane.width [mm]", "mark", "quantity", "film.shgc", "pane.height"});
  const RowTexts texts = row_texts(columns, {7, {" 900 ", "W1", "3", "", "36 1/2 in"}, "", 0}, {});
  CHECK(texts.quantity == 3.0);
  CHECK(texts.set == KeyTexts{{"pane.width", "900 mm"}, {"pane.height", "36 1/2 in"}});
}
