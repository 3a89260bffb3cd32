// Internal: what a whole schedule, or a visit, comes to, gathered type by type in memory that does not grow with it.
#pragma once

#include <array>
#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "type_answer.hpp"

namespace sunstrain::report {

class ScheduleSummary {
 public:
  // choice_keys: those whose words are compared for the odd ones.
  ScheduleSummary(std::vector<std::string> choice_keys, const Reference& reference);

  // A type of pane and how many there are of it, in the order of the rows: sums are then the same bits for any number
  // of threads.
  void add(const std::string& label, const Job& job, double quantity, const TypeAnswer& answer);
  // One that has no answer; of which `add` keeps nothing.
  void add_unanswered() { ++types_; }

  std::size_t types() const { return types_; }
  std::size_t errors() const { return types_ - examined_; }
  double panes() const { return all_.panes; }
  std::size_t types_of(Verdict verdict) const { return all_.types[static_cast<std::size_t>(verdict)]; }
  double panes_of(Verdict verdict) const { return all_.panes_by_verdict[static_cast<std::size_t>(verdict)]; }

  // "frame kind wood: line 7; 20 of 21 types have vinyl": hardly a type has it, nearly every other one and the same.
  std::vector<std::string> odd_ones() const;
  std::string breaks() const;  // what may break, in a sentence; of no type examined nothing

  // The odd ones first, then by verdict, by facing, the worst types, and what may break.
  std::string text(bool has_quantity) const;

 private:
  struct Tally {
    double panes = 0.0;
    std::array<std::size_t, 3> types{};  // by verdict
    std::array<double, 3> panes_by_verdict{};
    double worst_ratio = 0.0;
  };
  struct Word {
    std::size_t types = 0;
    std::string first;  // the label that had it first
  };
  struct Worst {
    Verdict verdict;
    double ratio;
    std::string label, reason;
  };

  struct Odd {
    double least_types, most_share, common_share;
  };

  void count_words(const Job& job, const std::string& label);
  void keep_if_worst(Worst type);
  std::string by_verdict() const;
  std::string by_facing() const;
  std::string worst_types() const;

  const Language& language_;
  Odd odd_;
  std::vector<std::string> choice_keys_;
  std::vector<std::map<std::string, Word>> words_;  // of each such key
  std::size_t types_ = 0, examined_ = 0;
  Tally all_;
  std::array<Tally, 17> facing_{};                     // by the compass in 22.5 deg, and not given
  std::vector<Worst> worst_;                           // worst first, few
  double breaks_low_ = 0.0, breaks_high_ = 0.0;        // expected, of all panes
  double log_whole_low_ = 0.0, log_whole_high_ = 0.0;  // logarithm of the chance that none breaks
};

}  // namespace sunstrain::report
