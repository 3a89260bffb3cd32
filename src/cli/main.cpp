#include <chrono>
#include <cstdio>
#include "sunstrain/assess.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
using namespace sunstrain;
int main(int argc, char** argv) {
  try {
    const Reference& ref = builtin_reference();
    Job job; job.source = "options";
    for (int i = 1; i < argc; ++i) set_key(job, argv[i], ref);
    check_job(job, ref);
    auto t0 = std::chrono::steady_clock::now();
    Assessment a = assess(job, ref);
    double ms = std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - t0).count();
    const char* v[] = {"go", "caution", "refer"};
    std::printf("%s figures %s guidance %s ratio %.3f middle %.3f lite %zu  (%.0f ms)\n", v[(int)a.verdict], v[(int)a.figures], v[(int)a.guidance], a.stress_ratio, a.stress_ratio_middle, a.governing_lite + 1, ms);
    for (auto& l : a.lites) for (auto* f : {&l.before, &l.after})
      std::printf("  A %.3f S %.0f peak %.2f mid %.2f allow %.2f refer %.2f Tc %.1f Te %.1f  m%d %s %.2f side %d at %.2f P %.2g %.2g %.2g\n", f->absorbed_fraction, f->absorbed_w_m2, f->peak_stress_pa/1e6, f->peak_stress_middle_pa/1e6, f->allowable_pa/1e6, f->refer_pa/1e6, f->center_k-273.15, f->edge_k-273.15, f->when.month, f->when.day==DayKind::cold_clear?"cold":"hot", f->when.local_hour, (int)f->side, f->position_m, f->odds.low, f->odds.best, f->odds.high);
    std::printf("  T %.3f R %.3f U %.2f g %.3f -> T %.3f R %.3f U %.2f g %.3f\n", a.before.solar_transmittance, a.before.solar_reflectance, a.before.u_value_w_m2k, a.before.shgc, a.after.solar_transmittance, a.after.solar_reflectance, a.after.u_value_w_m2k, a.after.shgc);
    for (auto& u : a.unknowns) { std::printf("  ? %s bad=%s mid=%s ratio_mid %.3f%s", u.key.c_str(), std::holds_alternative<double>(u.taken_bad)?std::to_string(std::get<double>(u.taken_bad)).c_str():std::get<std::string>(u.taken_bad).c_str(), std::holds_alternative<double>(u.taken_middle)?std::to_string(std::get<double>(u.taken_middle)).c_str():std::get<std::string>(u.taken_middle).c_str(), u.ratio_at_middle, u.decided?" DECIDED":""); for (auto&r:u.readings) std::printf(" [%.3f %s]", r.stress_ratio, v[(int)r.verdict]); std::printf("\n"); }
    for (auto& r : a.rules) std::printf("  rule %s %d %s\n", r.id.c_str(), (int)r.severity, r.text.c_str());
  } catch (const BadInput& e) { std::fprintf(stderr, "%s\n", e.what()); return 2; }
}
