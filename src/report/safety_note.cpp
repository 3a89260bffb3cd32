#include "sunstrain/report/safety_note.hpp"

#include "../io/tell.hpp"

namespace sunstrain {

std::string safety_note(const Reference& reference) {
  return tell(
      reference.language,
      "A screen from what was entered, no promise: the film and glass makers' guidance, local codes and licensed "
      "practice come first. Broken glass and blades cut: gloves, eye cover. Sound ladder; nobody under overhead "
      "glass; paint in old buildings may hold lead.");
}

}  // namespace sunstrain
