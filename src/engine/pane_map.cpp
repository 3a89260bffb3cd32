#include "sunstrain/pane_map.hpp"

#include <algorithm>

#include "hour_map.hpp"

namespace sunstrain {
namespace internal {

Light light_in(const GoverningHour& hour) {
  const Case& pane = hour.pane;
  return light_of(pane.shadow.in_month(hour.sky().month), pane.width_m, pane.height_m, pane.edge.bite_m,
                  hour.sky().slope);
}

bool lies_in(const LitArea& area, double x_m, double y_m, double width_m, double height_m) {
  if (area.nothing) return false;
  if (area.everything) return true;
  if (area.diagonal) return y_m < height_m * (1.0 - x_m / width_m);  // below the line from top left to bottom right
  return x_m >= area.left_m && x_m <= area.right_m && y_m >= area.bottom_m && y_m <= area.top_m;
}

}  // namespace internal

namespace {

using internal::GoverningHour;
using internal::lies_in;

// The strips of the hour at one depth from the cut edge.
struct Strips {
  double sun_k, shade_k, other_sun_k, other_shade_k;
};

class Hour {
 public:
  explicit Hour(const GoverningHour& hour)
      : hour_(hour),
        bite_m_(hour_.pane.edge.bite_m),
        width_m_(hour_.pane.width_m + 2.0 * bite_m_),
        height_m_(hour_.pane.height_m + 2.0 * bite_m_),
        light_(internal::light_in(hour_)) {}

  double width_m() const { return width_m_; }
  double height_m() const { return height_m_; }
  double bite_m() const { return bite_m_; }

  // From the lower left corner of the glass.
  double kelvin(double x_m, double y_m) const {
    const Strips at = strips(std::min({x_m, y_m, width_m_ - x_m, height_m_ - y_m}));
    const double sun = at.sun_k - at.shade_k, other_sun = at.other_sun_k - at.other_shade_k;
    const double other = light_.sun_under ? at.other_sun_k - at.sun_k : at.other_shade_k - at.shade_k;
    double lit = light_.sun_under ? 1.0 : 0.0, more_k = 0.0;
    for (const LightPart& part : light_.parts) {
      if (!lies_in(part.lit, x_m, y_m, width_m_, height_m_)) continue;
      if (part.adds == LightPart::Adds::sun) lit += part.share;
      if (part.adds == LightPart::Adds::sun_on_part) more_k += part.share * (other_sun - sun);
      if (part.adds == LightPart::Adds::part) more_k += part.share * other;
    }
    // Where two bars cross, their shadows are one.
    return at.shade_k + std::clamp(lit, 0.0, 1.0) * sun + more_k;
  }

 private:
  Strips strips(double depth_m) const {
    const internal::DayStrips& day = hour_.strips;
    const std::vector<double>& depths = day.lit->depth_m;
    const auto next = std::lower_bound(depths.begin(), depths.end(), depth_m);
    const auto i = static_cast<std::size_t>(next - depths.begin());
    const std::size_t high = std::min(i, depths.size() - 1), low = high == 0 ? 0 : high - 1;
    const double gap = depths[high] - depths[low];
    const double share = gap > 0.0 ? std::clamp((depth_m - depths[low]) / gap, 0.0, 1.0) : 1.0;
    const auto of = [&](std::span<const double> strip) { return strip[low] + share * (strip[high] - strip[low]); };
    return {of(day.lit->strip(hour_.step, hour_.lite)), of(day.in_shade(hour_.step, hour_.lite)),
            of(day.other_in_sun(hour_.step, hour_.lite)), of(day.other_in_shade(hour_.step, hour_.lite))};
  }

  const GoverningHour& hour_;
  double bite_m_, width_m_, height_m_;  // of the glass
  Light light_;
};

// The middle of field i of count + 2: the edge, the fields that one sees from bite to bite, the edge.
double middle_m(std::size_t i, std::size_t count, double whole_m, double bite_m) {
  if (i == 0) return 0.0;
  if (i > count) return whole_m;
  return bite_m + (static_cast<double>(i) - 0.5) / static_cast<double>(count) * (whole_m - 2.0 * bite_m);
}

}  // namespace

PaneMap internal::map_of(const GoverningHour& governing, const Assessment& a, std::size_t columns, std::size_t rows) {
  const Hour hour(governing);
  const LiteFigures& worst = a.lites[a.governing_lite].after;
  PaneMap map{columns + 2, rows + 2, {}, 0.0, worst.side};
  for (std::size_t row = map.rows; row-- > 0;) {  // y goes up, rows go down
    const double y_m = middle_m(row, rows, hour.height_m(), hour.bite_m());
    for (std::size_t column = 0; column < map.columns; ++column)
      map.kelvin.push_back(hour.kelvin(middle_m(column, columns, hour.width_m(), hour.bite_m()), y_m));
  }
  const bool flat = worst.side == Side::bottom || worst.side == Side::top;
  map.along = std::clamp(worst.position_m / (flat ? hour.width_m() : hour.height_m()), 0.0, 1.0);
  return map;
}

PaneMap pane_map(const Assessment& a, const Reference& reference, std::size_t columns, std::size_t rows) {
  return internal::map_of(GoverningHour(a, reference), a, columns, rows);
}

}  // namespace sunstrain
