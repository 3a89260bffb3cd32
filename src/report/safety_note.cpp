#include "sunstrain/report/safety_note.hpp"

namespace sunstrain {

std::string safety_note(const Reference&) {
  return "A screen from what was entered, no promise. The film and glass makers' guidance, local codes and licensed "
         "practice come first. Glass breaks and blades cut: gloves and eye cover, a sound ladder, nobody under overhead "
         "glass; paint in an old building may hold lead.";
}

}  // namespace sunstrain
