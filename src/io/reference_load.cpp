#include "sunstrain/io/reference_load.hpp"

#include <fmt/format.h>

#include "fingerprint.hpp"
#include "reference_tables.hpp"
#include "say.hpp"

namespace sunstrain {

namespace {

using Loader = void (*)(const std::string& file, std::string_view text, Reference& reference);

void load_rule_table(const std::string& file, std::string_view text, Reference& reference) {
  reference.rules = load_rules(file, text, reference.job_keys);
}

// In this order: rules, drivers and samples need the job keys.
constexpr std::pair<const char*, Loader> loaders[] = {
    {"glass_solar.csv", load_glass_solar}, {"glass.toml", load_glass},
    {"frames.toml", load_frames},          {"gases.toml", load_gases},
    {"shades.toml", load_shades},          {"grounds.toml", load_grounds},
    {"places.csv", load_places},           {"constants.toml", load_constants},
    {"job_keys.toml", load_job_keys},      {"rules.toml", load_rule_table},
    {"drivers.toml", load_drivers},        {"hand_methods.toml", load_hand_methods},
    {"samples.toml", load_samples},        {"warmth_scale.csv", load_warmth_scale},
};

}  // namespace

bool is_data(const std::string& file) { return file != "texts.csv"; }

Reference load_reference(const std::map<std::string, std::string>& files) {
  Reference reference;
  for (const auto& [name, load] : loaders) {
    const auto file = files.find(name);
    if (file == files.end()) throw BadInput(say("{}: this reference table is missing", name));
    load(file->first, file->second, reference);
  }
  std::vector<std::string_view> texts;
  for (const auto& [name, text] : files)
    if (is_data(name)) texts.insert(texts.end(), {name, text});
  reference.version = fingerprint_of(texts);
  return reference;
}

const Reference& builtin_reference() {
  static const Reference reference = load_reference(embedded_reference_files());
  return reference;
}

}  // namespace sunstrain
