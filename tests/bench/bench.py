"""What an edge stress costs here, in CalculiX and by a SciPy sparse solver, on one pane and field; and a full check.
    python3 tests/bench/bench.py build/release/tests/bench/bench [build/bench.csv]
All times are processor time of one thread, the least of several runs: on a busy machine the most repeatable measure.
Nothing is asserted."""
import bisect
import csv
import itertools
import math
import os
import pathlib
import platform
import resource
import subprocess
import shutil
import sys
import tempfile
import time

os.environ["OMP_NUM_THREADS"] = os.environ["OPENBLAS_NUM_THREADS"] = "1"
ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests" / "calculix"))
sys.dont_write_bytecode = True
import calculix_pane  # noqa: E402
import shadow_fields  # noqa: E402

WIDTH, HEIGHT, BAND_FROM, ALLOWED, CORNER_M = 1.2, 1.5, 0.75 * 1.5, 0.005, 0.010
CONVERGED = (0.06, 0.07, 1.06, 0.08)  # 18,000 elements; from half as many the answer still moves by 0.08 %
# Meshes that are tried: element at an edge and at a shadow over the length scale there, growth, widest element in m.
MESHES = list(itertools.product((0.2, 0.28, 0.4, 0.55), (0.3, 0.4, 0.55), (1.25, 1.4, 1.6), (0.08, 0.15)))


def field():
    """The smooth field of bench.cpp, not a table of it."""
    fx, fy = shadow_fields.framed(WIDTH, shadow_fields.FRAME_M), shadow_fields.framed(HEIGHT, shadow_fields.FRAME_M)
    lit = shadow_fields.between(None, BAND_FROM, shadow_fields.SHADOW_M)
    return lambda u, v: 10.0 + fx(u) * fy(v) * (6.0 + 20.0 * lit(v))


def mesh(choice):
    edge, shadow, growth, widest = choice
    lines = lambda length, shadows: shadow_fields.graded_lines(
        length, shadows, edge * shadow_fields.FRAME_M, shadow * shadow_fields.SHADOW_M, growth, widest)
    return lines(WIDTH, []), lines(HEIGHT, [BAND_FROM])


def elements(choice):
    x, y = mesh(choice)
    return (len(x) - 1) * (len(y) - 1)


def between_points(points, at):
    k = min(max(bisect.bisect(points, (at, -math.inf)), 1), len(points) - 1)
    (a, fa), (b, fb) = points[k - 1], points[k]
    return fa + (fb - fa) * (at - a) / (b - a)


def error(edges, converged, peak=None):
    """Largest of the peak's error and of the error more than 10 mm from a corner, as a share of the peak."""
    top = calculix_pane.peak(converged)
    worst = abs((calculix_pane.peak(edges) if peak is None else peak) / top - 1.0)
    for edge, points in edges.items():
        length = converged[edge][-1][0]
        for at, stress in points:
            if min(at, length - at) > CORNER_M:
                worst = max(worst, abs(stress - between_points(converged[edge], at)) / top)
    return worst


def children_s():
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def ccx_s(directory, text, rounds=3):
    least = math.inf
    for _ in range(rounds):
        start = children_s()
        frd = calculix_pane.run(directory, text)
        least = min(least, children_s() - start)
    return least, frd


def coarsest(solve, converged):
    """The mesh with the fewest elements that is good enough, and its error."""
    for choice in sorted(MESHES, key=elements):
        off = error(solve(choice), converged)
        if off <= ALLOWED:
            return choice, off
    raise RuntimeError("no mesh is within what is allowed")


def calculix(temperature):
    with tempfile.TemporaryDirectory() as directory:
        def solve(choice):
            x, y = mesh(choice)
            frd = calculix_pane.run(directory, calculix_pane.input_text(x, y, temperature))
            return calculix_pane.edge_stress(frd, x, y)
        converged = solve(CONVERGED)
        choice, off = coarsest(solve, converged)
        x, y = mesh(choice)
        took, _ = ccx_s(directory, calculix_pane.input_text(x, y, temperature))
        one = [0.0, 1.0]
        empty, _ = ccx_s(directory, calculix_pane.input_text(one, one, lambda u, v: 1.0))
        name = f"CalculiX; {elements(choice)} CPS8 elements"
        return converged, [(f"{name}; less an empty job", took - empty, 1, off),
                           ("CalculiX; empty job", empty, 1, None)]


def least_s(rounds, run):
    least = math.inf
    for _ in range(rounds):
        start = time.process_time()
        run()
        least = min(least, time.process_time() - start)
    return least


def scipy_sparse(temperature, converged):
    try:
        from airy_sparse import AirySparse
    except ImportError as missing:
        print(f"SciPy left out: {missing}")
        return []
    stress_per_k = calculix_pane.YOUNG_MPA * calculix_pane.EXPANSION

    def solve(choice):
        shape = AirySparse(*mesh(choice))
        return shape.solve(shape.samples(temperature), stress_per_k)
    choice, off = coarsest(solve, converged)
    lines = mesh(choice)
    shape = AirySparse(*lines)
    sampled = shape.samples(temperature)
    name = f"SciPy sparse Airy; {elements(choice)} bicubic elements"
    return [(f"{name}; assembled, factored, solved",
             least_s(5, lambda: AirySparse(*lines).solve(sampled, stress_per_k)), 1, off),
            (f"{name}; solved, factors kept", least_s(20, lambda: shape.solve(sampled, stress_per_k)), 1, off)]


def own(program):
    """bench's measures, and its answer for the field as edges in MPa with its peak."""
    rows, edges, peak = [], {"bottom": [], "right": [], "top": [], "left": []}, 0.0
    done = subprocess.run([program], stdout=subprocess.PIPE, check=True)
    for words in csv.reader(done.stdout.decode().splitlines()):
        if words[0] == "measure":
            rows.append((words[1], float(words[2]), int(words[3]), None))
        elif words[1] == "peak":
            peak = float(words[3]) / 1e6
        else:
            edges[words[1]].append((float(words[2]), float(words[3]) / 1e6))
    return rows, edges, peak


def shown(seconds):
    for unit, scale in (("s", 1.0), ("ms", 1e3), ("us", 1e6)):
        if seconds * scale >= 1.0 or unit == "us":
            return f"{seconds * scale:8.2f} {unit}"


def with_ratios(rows):
    """Each row with: times the floor; how many separable fields (profiles kept), how many general ones fit in."""
    time_of = lambda start: next((s for name, s, _, _ in rows if name.startswith(start)), None)
    kept, general = time_of("separable field; profiles kept"), time_of("general field")
    single, batch = time_of("floor: plain matrix times vector"), time_of("floor: plain matrix product")
    for name, seconds, count, off in rows:
        floor = (batch if "batch" in name else single) if name.startswith("separable") and "alone" not in name else None
        other = name.startswith(("CalculiX", "SciPy")) and "empty job" != name.split("; ")[-1]
        yield (name, seconds, count, off, seconds / floor if floor else None, seconds / kept if other else None,
               seconds / general if other else None)


def main():
    if len(sys.argv) not in (2, 3):
        sys.exit(__doc__)
    out = pathlib.Path(sys.argv[2]) if len(sys.argv) == 3 else ROOT / "build" / "bench.csv"
    rows, edges, peak = own(sys.argv[1])
    if shutil.which("ccx") is None:
        print("ccx is not installed: nothing to compare with")
    else:
        converged, others = calculix(field())
        off = error(edges, converged, peak)
        rows = [(n, s, c, off if n.startswith(("separable", "general")) else e) for n, s, c, e in rows]
        rows += others + scipy_sparse(field(), converged)
    table = list(with_ratios(rows))
    head = ("what", "processor_s", "steps_or_points", "error_share", "times_floor", "times_separable", "times_general")
    out.parent.mkdir(parents=True, exist_ok=True)
    with open(out, "w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows([head] + [["" if cell is None else cell for cell in row] for row in table])
    print(f"{platform.machine()}, one thread, processor time; pane {WIDTH} x {HEIGHT} m, frame strip and head band")
    print(f"{'':<72}{'time':>11}{'of':>7}{'error':>8}{'x floor':>9}{'x separable':>13}{'x general':>11}")
    for name, seconds, count, off, floor, kept, general in table:
        print(f"{name:<72}{shown(seconds)}{count:>7}" + (f"{100 * off:6.2f} %" if off is not None else " " * 8) +
              (f"{floor:9.1f}" if floor else " " * 9) + (f"{kept:13,.0f}" if kept else " " * 13) +
              (f"{general:11,.0f}" if general else ""))
    solve = next((s for name, s, *_ in table if name.startswith("CalculiX") and "less an empty job" in name), None)
    for name, seconds, *_ in table:
        if solve and name.startswith("weather year"):
            print(f"{name}: as long as {seconds / solve:.1f} of CalculiX's solves of one field")
        if solve and name.startswith("10000 samples"):
            print(f"{name}: {seconds / 2:.1f} s on each of two cores, {seconds / 2 / (30 * solve):.2f} of the "
                  f"{30 * solve:.1f} s of 30 of CalculiX's solves")
    print(f"written: {out}")


if __name__ == "__main__":
    main()
