// Numbers read where the library reads none: the way around it beside the library's own.
#include "../../src/io/decimal.hpp"

#include <catch2/catch.hpp>
#include <limits>
#include <string>

using namespace sunstrain;

namespace {

struct Read {
  std::errc error;
  long used;
  double value;
  bool operator==(const Read&) const = default;
};

template <typename Reader>
Read read(Reader reader, const std::string& text) {
  double value = -1.0;
  const auto [end, error] = reader(text.data(), text.data() + text.size(), value);
  return {error, static_cast<long>(end - text.data()), value};
}

}  // namespace

TEST_CASE("A decimal is read as std::from_chars reads it") {
  const auto library = [](const char* first, const char* last, double& value) {
    return std::from_chars(first, last, value);
  };
  for (const std::string text : {"0",
                                 "-0",
                                 "1",
                                 "37 1/4",
                                 "0.1",
                                 ".5",
                                 "5.",
                                 "-.5",
                                 ".",
                                 "-",
                                 "",
                                 "+1",
                                 " 1",
                                 "1e",
                                 "1e+",
                                 "1e5",
                                 "1E-5 m",
                                 "1e-5.5",
                                 "0x10",
                                 "1.2.3",
                                 "2,5",
                                 "1e400",
                                 "-1e400",
                                 "1e-400",
                                 "0e-400",
                                 "0.000e999",
                                 "9007199254740993",
                                 "abc",
                                 "e5",
                                 "0.30000000000000004",
                                 "2.2250738585072011e-308",
                                 "123456789012345678901234567890",
                                 "1.7976931348623157e308"}) {
    INFO(text);
    CHECK(read(decimal_by_strtod, text) == read(library, text));
    CHECK(read(decimal_from_chars, text) == read(library, text));
  }
}

TEST_CASE("A decimal is never infinite or none") {
  double value = 0.0;
  for (const std::string text : {"inf", "nan", "-inf", "infinity"})
    CHECK(decimal_by_strtod(text.data(), text.data() + text.size(), value).ec == std::errc::invalid_argument);
}
