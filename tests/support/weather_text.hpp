// Weather files of our own making: a smooth invented year at 45 N.
#pragma once

#include <cmath>
#include <functional>
#include <string>

namespace sunstrain::test {

inline constexpr int month_days[12]{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

struct WeatherCell {
  int month, day, hour;  // hour 1 to 24
  std::string air_c, dew_c, sky, beam, diffuse, snow;
};

// Cold winters, warm summers; sun in a half sine from 6 to 18 h on every third day, overcast otherwise.
inline WeatherCell plain_hour(int month, int day, int hour) {
  const double season = -std::cos(2 * M_PI * (month - 1.0 + day / 31.0) / 12.0);
  const double air = 8.0 + 14.0 * season - 6.0 * std::cos(2 * M_PI * (hour - 3.0) / 24.0);
  const double up = hour > 6 && hour <= 18 ? std::sin(M_PI * (hour - 6.5) / 12.0) : 0.0;
  const bool clear = day % 3 == 0;
  const auto text = [](double x) { return std::to_string(x); };
  return {month,
          day,
          hour,
          text(air),
          text(air - 7.0),
          "",
          text(clear ? 850.0 * std::sqrt(std::max(0.0, up)) : 0.0),
          text((clear ? 90.0 : 220.0) * std::max(0.0, up)),
          month <= 2 ? "12" : "0"};
}

inline void each_hour(const std::function<void(int, int, int)>& f) {
  for (int month = 1; month <= 12; ++month)
    for (int day = 1; day <= month_days[month - 1]; ++day)
      for (int hour = 1; hour <= 24; ++hour) f(month, day, hour);
}

// An EPW text; `change` may alter a cell, or return false to leave its row out.
inline std::string epw_text(const std::function<bool(WeatherCell&)>& change = [](WeatherCell&) { return true; }) {
  std::string text =
      "LOCATION,Kettle Bridge,-,-,invented,000000,45.00,-93.00,-6.0,250.0\n"
      "DESIGN CONDITIONS,1,invented,,Heating,1,-24.0,-21.0,Cooling,7,11.0,32.0,22.0\n"
      "TYPICAL/EXTREME PERIODS,0\nGROUND TEMPERATURES,0\nHOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\n"
      "COMMENTS 1,made for tests\nCOMMENTS 2,\nDATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31\n";
  each_hour([&](int month, int day, int hour) {
    WeatherCell c = plain_hour(month, day, hour);
    if (!change(c)) return;
    text += "2019," + std::to_string(c.month) + "," + std::to_string(c.day) + "," + std::to_string(c.hour) + ",60,?," +
            c.air_c + "," + c.dew_c + ",60,98000,0,0," + (c.sky.empty() ? "9999" : c.sky) + ",0," + c.beam + "," +
            c.diffuse + ",0,0,0,0,180,3,5,5,20,77777,9,999999999,10,0.1," + c.snow + ",88,0.2,0,1\n";
  });
  return text;
}

}  // namespace sunstrain::test
