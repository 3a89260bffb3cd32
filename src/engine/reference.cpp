#include "sunstrain/reference.hpp"

#include <stdexcept>

namespace sunstrain {

double constant(const Reference& reference, std::string_view name) {
  const auto found = reference.constants.find(name);
  if (found == reference.constants.end()) {
    throw std::out_of_range("reference/constants.toml has no constant called " + std::string(name));
  }
  return found->second.value;
}

}  // namespace sunstrain
