// Entries of an invented crew, of a real answer's size.
#pragma once

#include <string>

#include "sunstrain/record/store.hpp"

namespace sunstrain::tests {

// Time, pane, lot and names go by `number`.
inline record::NewEntry invented_entry(std::int64_t number) {
  record::NewEntry fresh;
  record::Entry& entry = fresh.entry;
  entry.kind = "answer";
  entry.made_utc = "2026-02-17T09:30:00Z";
  entry.pane = "window " + std::to_string(number);
  entry.lot = "lot " + std::to_string(4700 + number % 7);
  entry.looked_on = "2026-02-16";
  entry.program = "0.1.0";
  entry.tables = R"({"version":"0","files":{}})";
  entry.job = R"({"values":{"pane.width":0.8},"partly":{}})";
  entry.result = R"({"verdict":"go","stress_ratio":0.5,"note":")" + std::string(7000, 'x') + "\"}";
  entry.attachments = {{1, record::sha256_hex("photo " + std::to_string(number)), 7}};
  fresh.apart = {{"customer", "Customer " + std::to_string(number)},
                 {"address", std::to_string(number) + " Weir Street"},
                 {"by", "AB"},
                 {"attachment.1.name", "corner.jpg"}};
  return fresh;
}

}  // namespace sunstrain::tests
