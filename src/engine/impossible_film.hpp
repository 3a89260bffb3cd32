// A film's sheet that no film can have, in a sentence that waits for its language.
#pragma once

#include <stdexcept>
#include <utility>

#include "sunstrain/language.hpp"

namespace sunstrain {

class ImpossibleFilm : public std::domain_error {
 public:
  explicit ImpossibleFilm(Saying why) : std::domain_error(said(why, {})), why_(std::move(why)) {}

  const Saying& in_words() const { return why_; }

 private:
  Saying why_;
};

}  // namespace sunstrain
