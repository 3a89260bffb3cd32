#include "sunstrain/pane_map.hpp"

#include <algorithm>

#include "trace_hour.hpp"

namespace sunstrain {
namespace {

using internal::GoverningHour;

bool lies_in(const LitArea& area, double x_m, double y_m, double width_m, double height_m) {
  if (area.nothing) return false;
  if (area.everything) return true;
  if (area.diagonal) return y_m < height_m * (1.0 - x_m / width_m);  // below the line from top left to bottom right
  return x_m >= area.left_m && x_m <= area.right_m && y_m >= area.bottom_m && y_m <= area.top_m;
}

// The strips of the hour at one depth from the cut edge.
struct Strips {
  double sun_k, shade_k, other_sun_k, other_shade_k;
};

class Hour {
 public:
  Hour(const Assessment& a, const Reference& reference)
      : hour_(a, reference),
        bite_m_(hour_.pane.edge.bite_m),
        width_m_(hour_.pane.width_m + 2.0 * bite_m_),
        height_m_(hour_.pane.height_m + 2.0 * bite_m_),
        light_(light_of(hour_.pane.shadow, hour_.pane.width_m, hour_.pane.height_m, bite_m_, hour_.sky().slope)) {}

  // Shares of what one sees, from the left and from below.
  double kelvin(double across, double up) const {
    const double x_m = bite_m_ + across * hour_.pane.width_m, y_m = bite_m_ + up * hour_.pane.height_m;
    const Strips at = strips(std::min({x_m, y_m, width_m_ - x_m, height_m_ - y_m}));
    const double sun = at.sun_k - at.shade_k, other_sun = at.other_sun_k - at.other_shade_k;
    const double other = light_.sun_under ? at.other_sun_k - at.sun_k : at.other_shade_k - at.shade_k;
    double kelvin = light_.sun_under ? at.sun_k : at.shade_k;
    for (const LightPart& part : light_.parts) {
      if (!lies_in(part.lit, x_m, y_m, width_m_, height_m_)) continue;
      const double adds = part.adds == LightPart::Adds::sun           ? sun
                          : part.adds == LightPart::Adds::sun_on_part ? other_sun - sun
                                                                      : other;
      kelvin += part.share * adds;
    }
    return kelvin;
  }

  double edge_k() const { return hour_.edge_k(); }

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

  GoverningHour hour_;
  double bite_m_, width_m_, height_m_;  // of the glass
  Light light_;
};

}  // namespace

PaneMap pane_map(const Assessment& a, const Reference& reference, std::size_t columns, std::size_t rows) {
  const Hour hour(a, reference);
  PaneMap map{columns, rows, {}, hour.edge_k(), 0.0, Side::bottom};
  for (std::size_t row = 0; row < rows; ++row) {
    for (std::size_t column = 0; column < columns; ++column) {
      map.kelvin.push_back(hour.kelvin((static_cast<double>(column) + 0.5) / static_cast<double>(columns),
                                       1.0 - (static_cast<double>(row) + 0.5) / static_cast<double>(rows)));
    }
  }
  const LiteFigures& worst = a.lites[a.governing_lite].after;
  map.side = worst.side;
  const bool flat = worst.side == Side::bottom || worst.side == Side::top;
  const double bite_m = std::get<double>(a.bad_end.values.at("frame.bite"));
  const double side_m = std::get<double>(a.bad_end.values.at(flat ? "pane.width" : "pane.height")) + 2.0 * bite_m;
  map.along = std::clamp(worst.position_m / side_m, 0.0, 1.0);
  return map;
}

}  // namespace sunstrain
