#include "support/jobs.hpp"

#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/resolve.hpp"

namespace sunstrain::test {
namespace {

void set_all(Job& job, std::initializer_list<const char*> assignments) {
  for (const char* text : assignments) set_key(job, text, builtin_reference());
}

}  // namespace

Job job_of(std::initializer_list<const char*> assignments) {
  Job job{"test", {}};
  set_all(job, assignments);
  check_job(job, builtin_reference());
  return job;
}

Job complete_double(std::initializer_list<const char*> changes) {
  Job job{"test", {}};
  set_all(job, {"pane.width=1.0 m",
                "pane.height=1.4 m",
                "pane.facing=S",
                "pane.tilt=90 deg",
                "glass.panes=2",
                "lite.1.kind=float",
                "lite.2.kind=float",
                "lite.1.tint=clear",
                "lite.2.tint=clear",
                "lite.1.thickness=4 mm",
                "lite.2.thickness=4 mm",
                "lite.1.treatment=annealed",
                "lite.2.treatment=annealed",
                "lite.1.coating=none",
                "lite.2.coating=none",
                "cavity.1.width=12 mm",
                "cavity.1.gas=air",
                "unit.spacer=metal",
                "film.solar_transmittance=0.45",
                "film.solar_reflectance=0.10",
                "film.reference_glass=3-mm-clear",
                "film.surface=4",
                "film.emissivity=0.87",
                "edge.finish=as-cut",
                "frame.kind=vinyl",
                "frame.bite=12 mm",
                "frame.color=light",
                "frame.sun=shaded",
                "shading.pattern=none",
                "inside.shade=none",
                "inside.heat=none",
                "site.place=denver",
                "site.ground=grass"});
  set_all(job, changes);
  check_job(job, builtin_reference());
  return job;
}

Case complete_double_case(std::initializer_list<const char*> changes) {
  const Reference& reference = builtin_reference();
  return build_case(resolve(complete_double(changes), Run::bad_end, {}, reference).job, Run::bad_end, reference);
}

}  // namespace sunstrain::test
