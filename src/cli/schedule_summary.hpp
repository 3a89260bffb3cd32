// What a whole schedule comes to, gathered row by row in memory that does not grow with it.
#pragma once

#include <array>
#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "schedule_answer.hpp"

namespace sunstrain::cli {

class ScheduleSummary {
 public:
  ScheduleSummary(const ScheduleLayout& layout, const Reference& reference);

  // In the order of the rows: sums are then the same bits for any number of threads.
  void add(const RowResult& result);

  std::size_t errors() const { return types_ - examined_; }
  bool fault() const { return fault_; }

  // The odd ones first, then by verdict, by facing, the worst types, and what may break.
  std::string text() const;

 private:
  struct Tally {
    double panes = 0.0;
    std::array<std::size_t, 3> types{};  // by verdict
    std::array<double, 3> panes_by_verdict{};
    double worst_ratio = 0.0;
  };
  struct Word {
    std::size_t types = 0;
    std::string first;  // the row that had it first
  };
  struct Worst {
    Verdict verdict;
    double ratio;
    std::string label, reason;
  };

  // A word is odd where hardly a type has it and nearly every other has one and the same.
  struct Odd {
    double least_types, most_share, common_share;
  };

  void count_words(const Job& job, const std::string& label);
  void keep_if_worst(Worst type);
  std::string odd_ones() const;
  std::string by_verdict() const;
  std::string by_facing() const;
  std::string worst_types() const;
  std::string breaks() const;

  const Language& language_;
  Odd odd_;
  bool has_quantity_;
  std::vector<std::string> choice_keys_;            // columns that hold words
  std::vector<std::map<std::string, Word>> words_;  // of each such column
  std::size_t types_ = 0, examined_ = 0;
  bool fault_ = false;
  Tally all_;
  std::array<Tally, 17> facing_{};                     // by the compass in 22.5 deg, and not given
  std::vector<Worst> worst_;                           // worst first, few
  double breaks_low_ = 0.0, breaks_high_ = 0.0;        // expected, of all panes
  double log_whole_low_ = 0.0, log_whole_high_ = 0.0;  // logarithm of the chance that none breaks
};

}  // namespace sunstrain::cli
