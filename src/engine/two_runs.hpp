// Internal: what belongs together in the bad end's run and the middle one.
#pragma once

#include "sunstrain/assess.hpp"

namespace sunstrain::internal {

// Where the panes are not known the two runs may differ in them: lites are then paired from the room side. `others`:
// how many the other run has.
inline std::size_t counterpart(std::size_t lite, std::size_t lites, std::size_t others) {
  return lite + others >= lites ? lite + others - lites : 0;
}

// By which the full transient in the plane raises the stress; 1 where nobody followed it.
inline double raised_by(const std::optional<PlaneCheck>& check) { return check ? check->raised_by : 1.0; }

}  // namespace sunstrain::internal
