// The working behind an answer: the hour that governs, stage by stage, every figure with its unit and where its
// equation or value comes from; then the same pane by hand methods and against published limits. It informs, it
// overrules nothing.
#pragma once

#include <string>
#include <vector>

#include "sunstrain/assess.hpp"
#include "sunstrain/hand_methods.hpp"

namespace sunstrain {

// What and how are in the reference's language.
struct TraceFigure {
  std::string what;
  double value;
  std::string unit;  // of the value as it stands: "deg", "C", "W/m2", "MPa", "mm", "K", "1"
  std::string how;   // equation, and its source
};

struct TraceStage {
  std::string name;  // "sun", "optics", ... "stress", "plane", "strength"; last "cold water": an event, in no verdict
  std::vector<TraceFigure> figures;
};

struct Trace {
  Assessment assessment;
  std::size_t lite;  // the governing one, 0 outdoors
  LiteFigures governing;
  std::vector<TraceStage> stages;  // of the run at the bad end, with film
  HandCase hand_case;
  std::vector<HandResult> by_hand;
  std::vector<LimitUsed> limits;        // by this engine's stress, and middle less edge
  std::vector<std::string> why_differ;  // the methods' results and this engine's
};

// As assess() does it, then the governing hour once more. Throws what assess() throws.
Trace trace(const Job& job, const Reference& reference);

}  // namespace sunstrain
