#include <chrono>
#include <filesystem>
#include <fstream>
#include <numbers>

#include "support/job_text.hpp"

using namespace job_text;

// ---- reading ------------------------------------------------------------------------------------------

TEST_CASE("a job file in SI") {
  const Job job = read(R"(
# a comment
[job]
name = "stair window"
[pane]
width = '37-1/4"'
height = "5' 2\""
facing = "SE"
tilt = 90
[glass]
panes = 2
[lite.1]
tint = "clear"
thickness = "6 mm"
[lite.2]
thickness = "1/4 in"
coating = "Low-E-Soft"
[cavity.1]
width = "12 mm"
[film]
solar_absorptance = "45 %"
surface = "4"
emissivity = 0.87
[history]
chips = false
fogged = "no"
unit_age = "12 years"
[site]
latitude = 44.95
coldest = "-13 F"
daily_range = "20 F"
utc_offset = -6
)");
  CHECK(job.source == "pane.toml");
  CHECK(*number_of(job, "pane.width") == Approx(37.25 * 0.0254));
  CHECK(*number_of(job, "pane.height") == Approx(62 * 0.0254));
  CHECK(*number_of(job, "pane.facing") == Approx(0.75 * std::numbers::pi));
  CHECK(*number_of(job, "pane.tilt") == Approx(std::numbers::pi / 2));
  CHECK(*word_of(job, "glass.panes") == "2");
  CHECK(*word_of(job, "lite.2.coating") == "low-e-soft");
  CHECK(*number_of(job, "lite.2.thickness") == Approx(0.00635));
  CHECK(*number_of(job, "film.solar_absorptance") == 0.45);
  CHECK(*word_of(job, "film.surface") == "4");
  CHECK(*word_of(job, "history.chips") == "no");
  CHECK(*number_of(job, "history.unit_age") == 12.0);
  CHECK(*number_of(job, "site.coldest") == Approx(248.15));
  CHECK(*number_of(job, "site.daily_range") == Approx(20 / 1.8));
  CHECK(*number_of(job, "site.utc_offset") == -6.0);
  CHECK(job.values.size() == 21);
}

TEST_CASE("tables, dotted keys and inline tables are the same job") {
  const Job tables = read("[lite.1]\ntint = \"gray\"\n[lite.2]\ntint = \"clear\"\n[pane]\nwidth = \"1 m\"");
  const Job dotted = read("lite.1.tint = \"gray\"\nlite.2.tint = \"clear\"\npane.width = \"1 m\"");
  const Job nested = read("lite = { 1 = { tint = \"gray\" }, 2.tint = \"clear\" }\npane = { width = \"1 m\" }");
  CHECK(tables.values == dotted.values);
  CHECK(tables.values == nested.values);
  CHECK(read("\xEF\xBB\xBFpane.width = \"1 m\"\r\n").values.size() == 1);  // byte order mark, Windows line ends
}

TEST_CASE("a job file's keys and texts, written as a file, read back as the same job") {
  const std::string file = R"(
weather = "town.epw"
[job]
name = 'a "quoted" \ name'
[pane]
width = '37-1/4"'
height = "1.5 m"
[lite.2]
thickness = "4 to 6 mm"
[history]
cracked = false
)";
  const KeyTexts texts = job_texts(file, "job.toml", reference());
  REQUIRE(texts.size() == 6);
  CHECK(texts.front() == std::pair<std::string, std::string>("history.cracked", "no"));
  const std::string written = job_file_text(texts, reference());
  const Job first = read(file), again = read(written);
  CHECK(again.values == first.values);
  CHECK(again.partly.size() == first.partly.size());
  CHECK(job_texts(written, "job.toml", reference()) == texts);
  CHECK_THROWS_AS(job_file_text({{"pane.widht", "1 m"}}, reference()), BadInput);
}

TEST_CASE("unknown is the same as left out") {
  CHECK(read("[pane]\nwidth = \"unknown\"\nfacing = \"Unknown\"\n[lite.1]\ntint = \" UNKNOWN \"\n[job]\nname=\"\"")
            .values.empty());
  Job job = sound();
  set_key(job, "film.solar_absorptance=unknown", reference());
  CHECK_FALSE(number_of(job, "film.solar_absorptance"));
  CHECK(says(check_refusal(sound({"pane.width=unknown"})), {"pane.width", "missing", "37 1/4 in"}));
}

TEST_CASE("a bad value names file, line, key, value and what is allowed") {
  CHECK(says(
      read_refusal("[film]\n\nsolar_absorptance = 45\n"),
      {"pane.toml, line 3", "film.solar_absorptance", "\"45\"", "45 could mean 0.45 or 45: write \"45 %\" or 0.45"}));
  CHECK(says(read_refusal("[pane]\nwidth = 37"), {"pane.toml, line 2", "pane.width", "\"37\"", "mm, cm, m, in, ft"}));
  CHECK(says(read_refusal("[pane]\nwidth = \"0 m\""), {"pane.width", "0 m", "0.05 m to 12 m"}));
  CHECK(says(read_refusal("[pane]\nwidth = 0"), {"pane.width", "0.05 m to 12 m"}));
  CHECK(says(read_refusal("[lite.1]\nthickness = \"-6 mm\""),
             {"lite.1.thickness", "-6 mm", "2 mm to 25 mm", "never of the whole unit"}));
  CHECK(says(read_refusal("[lite.1]\ntint = \"grey\""),
             {"lite.1.tint", "grey", "clear, low-iron, bronze, gray, green", "nearest is gray"}));
  CHECK(says(read_refusal("[film]\nsolar_transmittance = -0.1"), {"film.solar_transmittance", "-0.1", "0 to 1"}));
  CHECK(says(read_refusal("[film]\nshgc = \"120 %\""), {"film.shgc", "120 %", "0 to 1"}));
  CHECK(says(read_refusal("[site]\ncoldest = -20"), {"site.coldest", "no unit", "C, F, K"}));
  CHECK(says(read_refusal("[site]\nlatitude = \"N\""), {"site.latitude", "no angle"}));
  CHECK(says(read_refusal("[pane]\nfacing = \"north\""), {"pane.facing", "north", "NNE"}));
  CHECK(says(read_refusal("[pane]\nfacing = 400"), {"pane.facing", "0 deg to 360 deg"}));
  CHECK(says(read_refusal("[pane]\nwidth = \"\""), {"pane.width", "is empty"}));
  CHECK(says(read_refusal("[pane]\nwidth = true"), {"pane.width", "true", "not a length"}));
  CHECK(says(read_refusal("[pane]\nwidth = [1, 2]"), {"pane.width", "not a list"}));
  CHECK(says(read_refusal("[pane.width]\n"), {"pane.width", "not a table"}));
  CHECK(says(read_refusal("[pane]\nwidth = nan"), {"line 2", "finite", "width = nan"}));
  CHECK(says(read_refusal("[pane]\nwidth = inf"), {"line 2", "finite", "width = inf"}));
  CHECK(says(read_refusal("[pane]\nwidth = 1e308"), {"pane.width", "1e+308", "no unit"}));
  CHECK(says(read_refusal("[pane]\nwidth = \"1e308 m\""), {"pane.width", "too large"}));
  CHECK(says(read_refusal("[pane]\nwidth = \"NaN m\""), {"pane.width", "NaN m", "not a length"}));
  CHECK(says(read_refusal("[site]\nutc_offset = 1e300"), {"site.utc_offset", "too large"}));
  CHECK(says(read_refusal("[job]\nname = 12"), {"job.name", "12", "quotes"}));
  CHECK(says(read_refusal("[job]\ndate = \"2025-02-30\""), {"job.date", "2025-02-30", "year-month-day"}));
  CHECK(says(read_refusal("[job]\ndate = 2025-02-20"), {"line 2", "quotes"}));
  CHECK(says(read_refusal("[glass]\npanes = 4"), {"glass.panes", "\"4\"", "1, 2, 3"}));
  CHECK(says(read_refusal("[glass]\npanes = 2.5"), {"glass.panes", "2.5"}));
}

TEST_CASE("an unknown key is refused with the nearest") {
  CHECK(says(read_refusal("[pane]\nwidht = \"1 m\""), {"pane.toml, line 2", "pane.widht", "nearest is pane.width"}));
  CHECK(says(read_refusal("width = \"1 m\""), {"width", "nearest is pane.width"}));
  CHECK(says(read_refusal("[Pane]\nwidth = \"1 m\""), {"[Pane]", "nearest is [pane]"}));
  CHECK(says(read_refusal("[film]\nsolar_absorbtance = 0.5"), {"nearest is film.solar_absorptance"}));
  CHECK(says(read_refusal("[lite.2]\nthicknes = \"6 mm\""), {"nearest is lite.2.thickness"}));
  CHECK(says(read_refusal("[lite.0]\ntint = \"clear\""), {"[lite.0]", "no such table"}));
  CHECK(says(read_refusal("[lite.01]\ntint = \"clear\""), {"[lite.01]", "nearest is [lite.1]"}));
  CHECK(says(read_refusal("[lite.4]\ntint = \"clear\""), {"lite.4.tint", "no such lite", "1 to 3"}));
  CHECK(says(read_refusal("[lite.99999999999999999999]\ntint = \"clear\""), {"no such lite"}));
  CHECK(says(read_refusal("[cavity.3]\nwidth = \"12 mm\""), {"cavity.3.width", "no such cavity", "1 to 2"}));
  CHECK(says(read_refusal("[lite.\"*\"]\ntint = \"clear\""), {"lite.*.tint", "no such key"}));
  CHECK(says(read_refusal("[[lite]]\ntint = \"clear\""), {"lite", "is a table"}));
  CHECK(says(read_refusal("[windwo]\n"), {"[windwo]", "no such table"}));
  CHECK(says(read_refusal("pane = 3"), {"pane", "is a table", "under [pane]"}));
  CHECK(says(read_refusal("xylophone.player = 3"), {"no such table", "--template"}));
  CHECK(says(read_refusal("\"\" = 3"), {"no such key"}));
  CHECK(says(read_refusal("pane.width = \"1 m\"\n\"pane.width\" = \"2 m\""), {"pane.width", "given twice"}));
  CHECK(says(read_refusal("pane.width = \"1 m\"\npane.width = \"2 m\""), {"pane.toml, line 2"}));
}

TEST_CASE("files that are no job") {
  CHECK(says(read_refusal(""), {"pane.toml", "empty", "--template"}));
  CHECK(says(read_refusal(" \n\t\r\n"), {"empty"}));
  CHECK(read("# only a comment").values.empty());
  CHECK(says(read_refusal(std::string("a\0b", 3)), {"line 1", "0x00", "UTF-8"}));
  CHECK(says(read_refusal("[pane]\nwidth = \"\xFF\""), {"line 2", "0xFF"}));
  CHECK(says(read_refusal("[job]\nname = \"\xC3\""), {"line 2", "0xC3"}));              // cut off
  CHECK(says(read_refusal("[job]\nname = \"\xED\xA0\x80\""), {"line 2", "0xED"}));      // surrogate
  CHECK(says(read_refusal("[job]\nname = \"\xC0\xAF\""), {"line 2", "0xC0"}));          // overlong
  CHECK(says(read_refusal("[job]\nname = \"\xF4\x90\x80\x80\""), {"line 2", "0xF4"}));  // beyond U+10FFFF
  CHECK(read("[job]\nname = \"Caf\u00E9 \U0001F600\"").values.size() == 1);
  CHECK(says(read_refusal("width : 3"), {"pane.toml, line 1", "in: width : 3"}));
  CHECK(says(read_refusal("[pane\nwidth = 3"), {"line"}));
  for (const char* text :
       {"[=]",    "[]",       "[[]]",    "= 3",    "a = ",   "a = [",   "a = {",         "[a]b",           "a.",
        ".a = 1", "a..b = 1", "a = 1 2", "a = _1", "a = 0x", "a = tru", "a = \"\\u12\"", "a = 1979-13-99", "a = \"\"\"",
        "]",      "}",        ","}) {
    CAPTURE(text);
    CHECK(says(read_refusal(text), {"pane.toml, line 1"}));
  }
  CHECK(says(read_refusal("name = \"never ends"), {"line 1"}));
  CHECK(says(read_refusal(std::string(1'000'001, '#')), {"larger than 1 MB"}));
}

TEST_CASE("the name of the file cannot spoil the message") {
  const auto named = [](const std::string& name) {
    return refusal([&] { read_job_toml("[pane]\nwidth = nan", name, reference()); });
  };
  CHECK(says(named("a, line 999999999: b.toml"), {"b.toml, line 2", "in: width = nan"}));
  CHECK(says(named("new\nline\x1b.toml"), {"new?line?.toml, line 2"}));
  CHECK(says(named(std::string(200, 'd') + "/pane.toml"), {"d/pane.toml, line 2"}));
  CHECK(says(named(""), {", line 2"}));
}

TEST_CASE("letters beyond ASCII belong between quotes") {
  CHECK(
      says(read_refusal("[pane]\nwidth = \u201C37 in\u201D"), {"pane.toml, line 2", "curly quote", "plain \" marks"}));
  CHECK(says(read_refusal("[pane]\nbreit\u00E9 = 3"), {"line 2", "outside quotes"}));
  CHECK(says(read_refusal("film.solar_abs\u00B0orptance = 0.9"), {"line 1", "outside quotes"}));  // found by the fuzzer
  for (const char* text :
       {"a.b=45.'ar\u00A9x", "a=45[\"\u00A9\"", "a=4=\"\u00A9\"", "a=1 \"\u00A9\"", "a=\"\"'\u00A9'",
        "a=[1 2 \"\u00A9\"]", "a\"\u00A9\" = 1", "[a]\"\u00A9\"", "a=[\n1'\u00A9']", "a={b=1'\u00A9'}",
        "\"\"\"\n1[=]\\\u00A9", "a=\"\"\"\n\\\u00A9", "a=\"\"\"\\\n \u00A9\"\"\"", "a=\"\\\u00A9\""}) {
    CAPTURE(text);
    CHECK(says(read_refusal(text), {"pane.toml, line"}));  // the first found by the fuzzer
  }
  CHECK(says(read_refusal("[pane]\nwidth = 37 1/4\""), {"line 2", "quote mark", "'37 1/4\"'"}));
  CHECK(says(read_refusal("[pane]\nwidth = 37\""), {"line 2", "quote mark", "'37 1/4\"'"}));
  CHECK(says(read_refusal("x = \"\"\"a\n\n\"\"\"\n\u00B0 = 1"), {"line 4"}));
  CHECK(read("# \u00B0 in a comment\n[job]\nname = \"20 \u00B0C\" # \u00B0").values.size() == 1);
  CHECK(says(read_refusal("[pane]\n\"breit\u00E9\" = 3"), {"line 2", "no such key"}));
}

TEST_CASE("text goes to terminals and papers: no control characters, no novels") {
  CHECK(says(read_refusal("[job]\nname = \"a\\nb\""), {"job.name", "control"}));
  CHECK(says(read_refusal("[job]\nname = \"\\u001b[31m\""), {"job.name", "?[31m"}));
  CHECK(says(read_refusal("[pane]\nwidth = \"\\u001b[31m\""), {"pane.width", "?[31m"}));
  CHECK(read_refusal("[pane]\nwidth = \"\\u001b[31m\"").find('\x1b') == std::string::npos);
  CHECK(read_refusal("[pane]\n\"wi\\u001bdth\" = 3").find('\x1b') == std::string::npos);
  CHECK(says(read_refusal("[job]\nnote = \"" + std::string(501, 'x') + "\""), {"longer than 500"}));
  CHECK(read_refusal("[pane]\nwidth = \"" + std::string(9000, 'x') + "\"").size() < 300);
  CHECK(read_refusal("[pane]\n" + std::string(9000, 'x') + " = 3").size() < 300);
}

TEST_CASE("deep nesting does not reach the parser's stack") {
  std::string dotted = "a";
  for (int i = 0; i < 200'000; ++i) dotted += ".a";
  CHECK(says(read_refusal(dotted + " = 1"), {"line 1", "levels"}));
  CHECK(says(read_refusal("\n[" + dotted + "]"), {"line 2", "levels"}));
  CHECK(says(read_refusal("a = " + std::string(100'000, '[')), {"levels"}));
  std::string inline_tables = "a = ";
  for (int i = 0; i < 50'000; ++i) inline_tables += "{a=";
  CHECK(says(read_refusal(inline_tables), {"levels"}));
  // Quote marks that the scan has to read as the parser does: the long key comes after a string.
  CHECK(says(read_refusal("x = { y = \"\"\"q\"\"\"\"\", " + dotted + " = 1 }"), {"levels"}));
  CHECK(says(read_refusal("x = '''a\n''b''', \n" + dotted + " = 1"), {"levels"}));
  CHECK(says(read_refusal("x = \"a\\\"\"\n# it's\n" + dotted + " = 1"), {"line 3", "levels"}));
  // What is plain TOML passes: the refusals below are of the keys, by the reader.
  CHECK(says(read_refusal("\"a\" . 'b' = 3"), {"[a]", "no such table"}));
  CHECK(
      says(read_refusal("a = [\n  1.5, # \u00B0\n  \"\u00B0\",\n  [ 'x' ],\n  { b = \"\u00B0\", \"c\".d = 1.5 },\n]\n"),
           {"a: no such key"}));
  CHECK(says(read_refusal("[ \"a\" . b ] # \u00B0\nx = 1979-05-27\n"), {"quotes"}));
  CHECK(says(read_refusal("x = +1_000.5e-3 # it's \"fine\"\n[[y.\"\u00B0\"]]\n"), {"line 1: x: no such key"}));
  // Dots inside text are no levels.
  CHECK(read("[job]\nnote = \"a.b.c.d.e.f.g.h.i.j.k.l.m.n\"\nname = 'x.x.x.x.x.x.x.x.x.x.x'").values.size() == 2);
}

// ---- options ------------------------------------------------------------------------------------------

TEST_CASE("options override the file and can be a whole job") {
  const Job over = sound({"film.solar_absorptance=0.62", "pane.width=\"1 m\"", " lite.1.tint = gray "});
  CHECK(*number_of(over, "film.solar_absorptance") == 0.62);
  CHECK(*number_of(over, "pane.width") == 1.0);
  CHECK(*word_of(over, "lite.1.tint") == "gray");
  CHECK(over.source == "pane.toml");
  const Job quick =
      with({}, {"pane.width=37-1/4\"", "pane.height=5' 2\"", "film.solar_absorptance=50 %", "job.name=a = b"});
  CHECK(quick.source == "options");
  CHECK(*number_of(quick, "pane.height") == Approx(62 * 0.0254));
  CHECK(*word_of(quick, "job.name") == "a = b");
  CHECK_NOTHROW(check_job(quick, reference()));
}

TEST_CASE("a bad option is refused and leaves the job as it was") {
  Job job = sound();
  const auto before = job.values;
  for (const char* option :
       {"film.solar_absorptance=45", "film.solar_absorptance", "=", "=3", "", "film.x=1", "pane.width=nan m",
        "pane.width=", "lite.*.tint=clear", "lite.7.tint=clear", "job.name=\x1b[2J", "job.name=\xFF"}) {
    CAPTURE(option);
    CHECK(says(refusal([&] { set_key(job, option, reference()); }), {"--set"}));
    CHECK(job.values == before);
  }
  CHECK(says(refusal([&] { set_value(job, "pane.width", "37", "panes.csv, row 3", reference()); }),
             {"panes.csv, row 3: pane.width = \"37\""}));
}

// ---- files --------------------------------------------------------------------------------------------

namespace {

struct Folder {
  std::filesystem::path path =
      std::filesystem::temp_directory_path() /
      ("sunstrain_job_read_" + std::to_string(std::chrono::steady_clock::now().time_since_epoch().count()));
  Folder() { std::filesystem::create_directory(path); }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
  std::string file(const char* name, const std::string& bytes) const {
    std::ofstream(path / name, std::ios::binary) << bytes;
    return (path / name).string();
  }
};

std::string file_refusal(const std::string& path, std::size_t most = 10'000'000) {
  return refusal([&] { read_text_file(path, most); });
}

}  // namespace

TEST_CASE("files that cannot be read") {
  const Folder folder;
  CHECK(says(file_refusal((folder.path / "none.toml").string()), {"none.toml", "no such file"}));
  CHECK(says(file_refusal(folder.path.string()), {"is a directory"}));
  CHECK(says(file_refusal(""), {"no file name"}));
  CHECK(says(file_refusal(std::string(5000, 'x')), {"xxx..."}));
  CHECK(says(file_refusal(folder.file("empty.toml", "")), {"empty.toml", "is empty"}));
  CHECK(says(file_refusal(folder.file("junk.toml", std::string("\x7f"
                                                               "ELF\x02\x00\x01",
                                                               7))),
             {"junk.toml, line 1", "0x00"}));
  CHECK(says(file_refusal(folder.file("utf16.toml", std::string("\xFF\xFE[\0p\0", 6))), {"utf16.toml", "UTF-8"}));
  CHECK(says(file_refusal(folder.file("long.toml", std::string(1001, '#')), 1000), {"long.toml", "larger than"}));
  CHECK(read_text_file(folder.file("fits.toml", std::string(1000, '#')), 1000).size() == 1000);
  CHECK(read_text_file(folder.file("large.toml", std::string(300'000, '#'))).size() == 300'000);

  const std::string huge = folder.file("huge.toml", "#");
  std::filesystem::resize_file(huge, 100'000'000);  // sparse: 100 MB that take no room
  CHECK(says(file_refusal(huge), {"huge.toml", "larger than 10 MB"}));
  if (std::filesystem::exists("/dev/zero")) CHECK(says(file_refusal("/dev/zero"), {"larger than 10 MB"}));
}
