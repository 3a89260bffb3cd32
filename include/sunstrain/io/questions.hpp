// The questions at a window (reference/questions.toml), bound to the tables that they speak of.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "sunstrain/reference.hpp"

namespace sunstrain {

// One answer in plain words. Values as one types them; a star is the lite in hand.
struct Answer {
  std::string say, is;                                    // `is` empty: settles not the question's own key
  std::vector<std::pair<std::string, std::string>> set;   // other keys and their values
  std::vector<std::pair<std::string, std::string>> copy;  // a key, and the key whose value it takes
  Condition when;                                         // offered only where this holds
};

struct Question {
  enum class Asked { whole, quick, always };  // on the whole way alone, with --quick too, after "enough" too
  std::string name, part, key, ask, find;     // find: how to find out
  Condition when;                             // asked only where this holds and the key has a meaning
  std::string given;                          // the same in words; empty: always
  std::vector<Answer> answers;                // empty: the value itself
  bool several = false;                       // of the answers; the first is what holds of the rest
  std::vector<std::pair<std::string, std::string>> also;  // with any answer but "don't know"
  std::vector<std::string> not_offered;
  std::optional<Condition> needed;  // no "don't know" where this holds
  std::string refused;              // a key: what its `refused` says goes with that
  Asked asked = Asked::whole;
  Source source;
};

struct Questions {
  std::vector<Question> rows;  // in the order in which they are put
  const Reference* reference;  // outlives them
};

// Every key and word must be known, every word of a choice key be offered or said not to be. Throws BadInput that names
// file, question and what is wrong.
Questions load_questions(const std::string& file, std::string_view text, const Reference& reference);

// Those that the program was built with, of builtin_reference().
const Questions& builtin_questions();

// The same in the language of the reference, which must be of the built-in tables and outlive them.
Questions builtin_questions_in(const Reference& reference);

}  // namespace sunstrain
