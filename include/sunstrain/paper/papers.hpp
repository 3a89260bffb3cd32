// What people type for a sheet and no engine needs. Whatever is empty leaves a line to write on.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace sunstrain {

// A photo or other file that goes with the sheet: by its name, and by what tells it from every other.
struct Photo {
  std::string path;          // as typed
  std::string name, sha256;  // of the file; empty until somebody has read it
  std::uint64_t bytes = 0;
};

// What was seen at the glass.
struct OnSite {
  std::string pane;  // job.name of the pane it is about; empty: all of them
  std::string edges, damage, notes;
  std::vector<Photo> photos;
};

// A maker's guidance that somebody consulted.
struct Consulted {
  std::string whose, reference, edition, date, answer;
};

// Terms of the cover in force, as the user has them.
struct Cover {
  std::string of, reference, edition, date, terms;
};

struct Papers {
  std::string customer, address;
  std::string made_by, company, contact;
  std::string film_lot;
  std::string record_head, record_entries;  // of sunstrain record, to hold the record against later
  std::vector<std::string> shown_to;
  std::vector<Consulted> guidance;
  std::vector<Cover> covers;
  std::vector<OnSite> on_site;
};

// The tables [customer], [made_by], [film], [record], [[guidance]], [[cover]] and [[on_site]] of a TOML file;
// examples/stair-papers.toml shows all of it. Throws BadInput in one line with file, table, key and what is allowed,
// for an unknown key with the nearest one. Photos are not read here.
Papers read_papers_toml(std::string_view text, const std::string& source);

}  // namespace sunstrain
