#include "sunstrain/io/reference_load.hpp"

#include <fmt/format.h>

#include <cstdint>

#include "reference_tables.hpp"

namespace sunstrain {

namespace {

// FNV-1a, 64 bits (Fowler, Noll, Vo; the constants are those of the IETF draft of the method).
class Fingerprint {
 public:
  void add(std::string_view text) {
    for (const char c : text) add_byte(static_cast<unsigned char>(c));
    add_byte(0);  // keeps "ab" + "c" apart from "a" + "bc"
  }
  std::string hex() const { return fmt::format("{:016x}", state_); }

 private:
  void add_byte(unsigned char byte) { state_ = (state_ ^ byte) * std::uint64_t{0x100000001b3}; }
  std::uint64_t state_ = 0xcbf29ce484222325;
};

using Loader = void (*)(const std::string& file, std::string_view text, Reference& reference);

void load_rule_table(const std::string& file, std::string_view text, Reference& reference) {
  reference.rules = load_rules(file, text, reference.job_keys, false);
}

// In this order: rules, drivers and samples need the job keys.
constexpr std::pair<const char*, Loader> loaders[] = {
    {"glass_solar.csv", load_glass_solar}, {"glass.toml", load_glass},
    {"frames.toml", load_frames},          {"gases.toml", load_gases},
    {"shades.toml", load_shades},          {"grounds.toml", load_grounds},
    {"places.csv", load_places},           {"constants.toml", load_constants},
    {"job_keys.toml", load_job_keys},      {"rules.toml", load_rule_table},
    {"drivers.toml", load_drivers},        {"hand_methods.toml", load_hand_methods},
    {"samples.toml", load_samples},
};

}  // namespace

Reference load_reference(const std::map<std::string, std::string>& files) {
  Reference reference;
  for (const auto& [name, load] : loaders) {
    const auto file = files.find(name);
    if (file == files.end()) throw BadInput(fmt::format("{}: this reference table is missing", name));
    load(file->first, file->second, reference);
  }
  Fingerprint fingerprint;
  for (const auto& [name, text] : files) {
    fingerprint.add(name);
    fingerprint.add(text);
  }
  reference.version = fingerprint.hex();
  return reference;
}

const Reference& builtin_reference() {
  static const Reference reference = load_reference(embedded_reference_files());
  return reference;
}

}  // namespace sunstrain
