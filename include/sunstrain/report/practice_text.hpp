// Practice in words: for a terminal, and pieces of it for the page.
#pragma once

#include <string>
#include <vector>

#include "sunstrain/io/quantity.hpp"
#include "sunstrain/practice.hpp"
#include "sunstrain/report/text_answer.hpp"

namespace sunstrain {

// "Guidance: This is wired glass." or "Load: lite 1 tint gray; compared with clear glass". One line, no figure of the
// answer in it.
std::string decider_text(const Decider& decider, const Reference& reference, Units units);

// The job's values as one writes them on a pad, without papers and names: "width 900 mm", in the order of the key
// table.
std::vector<std::string> pad_lines(const Job& job, const Reference& reference, Units units);

// Title, what is seen and the pad.
std::string scenario_text(const Scenario& scenario, const Reference& reference, const TextStyle& style);

// What one sees and the question, without its answers.
std::string drill_text(const Drill& drill, const TextStyle& style);

// What `set` of a comparison does: "with the porch gone: 0.67 in place of 1.04, go in place of caution".
std::string comparison_text(const Comparison& comparison, const Assessment& scenario, const Assessment& other,
                            const Language& language = {});

// What the window teaches: comparisons, the lesson, and what the rules behind it say to those who learn.
struct Shown {
  const Scenario* scenario;
  const Assessment* answer;               // with its drivers
  const std::vector<Assessment>* others;  // of scenario->compare
};
std::string lesson_text(const Shown& shown, const Language& language, const TextStyle& style);

// The rules that ask or refer, whose training text goes with the lesson.
std::vector<Rule> taught_rules(const Assessment& answer);

// The pane in its worst hour in letters, cool to warm, and where it is stretched.
std::string sketch_text(const Assessment& answer, const Reference& reference, const TextStyle& style);

// How many were right, by topic, and what to look at again; ends with what it is not.
std::string score_text(const PracticeScore& score, const Deck& deck, const TextStyle& style,
                       const Language& language = {});

// "A practice record, not a qualification."
std::string practice_note(const Language& language = {});

// A verdict that somebody answers: a word, its first letters, or its number in the order go, caution, refer.
std::optional<Verdict> verdict_answered(std::string_view text, const Language& language = {});

}  // namespace sunstrain
