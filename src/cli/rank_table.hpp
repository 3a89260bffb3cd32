// Ranked films as rows of a table: the pane's own columns, the list's own, and the answer's.
#pragma once

#include <string>
#include <vector>

#include "rank_try.hpp"
#include "table_in.hpp"

namespace sunstrain::cli {

// Names of the columns that the answer adds.
const std::vector<std::string>& rank_columns();

// A row for each film shown, in their order, and for each that could not be tried.
class RankTable {
 public:
  // Written as `written_as` is: its separator, mark and line ends. Without panes of a table `panes` is null.
  RankTable(const FilmList& list, const TableIn& films, const TableIn& written_as, const ScheduleLayout* panes,
            const Language& language);

  std::string first_line() const;
  std::string lines(const Pane& pane, const RankedPane& ranked, const RankChoice& choice) const;

 private:
  std::string line(const Pane& pane, std::vector<std::string> film, const std::vector<std::string>& answer) const;
  std::vector<std::string> answer_cells(std::size_t place, const FilmOnPane& film, const std::string& reason) const;

  const FilmList& list_;
  const TableIn &films_, &written_as_;
  const Language& language_;
  std::vector<std::size_t> kept_;         // columns of the panes' table; those of the film are the list's
  std::vector<std::string> pane_header_;  // as they stand
};

// Columns of a table of panes that the films of a list stand for.
std::vector<std::string> film_columns(const ScheduleLayout& panes, const FilmList& list);

// {"line": 7, "cells": [...], "quantity": 12, "films": [...], ...} and a line break: one pane of a table.
std::string rank_json_line(const Pane& pane, const RankedPane& ranked, const RankChoice& choice,
                           const ScheduleLayout& layout, const Language& language);

}  // namespace sunstrain::cli
