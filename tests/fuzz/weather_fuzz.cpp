// libFuzzer: any bytes as a weather file, and behind the header lines of a sound one. BadInput is an answer; a message
// of more than one line, a year with holes or a step that is no number is a fault.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "allow_bad_input.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/io/weather_read.hpp"

namespace {

using namespace sunstrain;

void read(const std::string& text) {
  allow_bad_input([&] {
    const WeatherYear year = read_weather(text, "fuzz.epw", builtin_reference());
    for (const WeatherRecord& r : year.records)
      if (!r.air_k || !r.dew_point_k || !r.beam_normal_w_m2 || !r.diffuse_horizontal_w_m2) std::abort();
  });
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  read(text);
  read("LOCATION,a,b,c,d,0,45,-93,-6,250\nDESIGN CONDITIONS,0\nDATA PERIODS,1,1,Data,Sunday,1/1,12/31\n" + text);
  read("month,day,hour,air_c,beam_normal_w_m2,diffuse_horizontal_w_m2\n" + text);
  return 0;
}
