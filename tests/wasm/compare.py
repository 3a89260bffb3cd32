"""Compares two lists "name number" line by line: compare.py NATIVE WASM RELATIVE_LIMIT. Exit 1 where they differ."""
import sys

native_path, wasm_path, limit = sys.argv[1], sys.argv[2], float(sys.argv[3])


def read(path):
    return {name: float(value) for name, value in (line.split() for line in open(path) if line.strip())}


native, wasm = read(native_path), read(wasm_path)
if "exported_peak_pa" in wasm:
    native["exported_peak_pa"] = native["edge_peak_pa"]
if native.keys() != wasm.keys() or not native:
    sys.exit(f"not the same numbers: {sorted(native.keys() ^ wasm.keys())}")
worst = 0.0
for name, value in native.items():
    error = abs(wasm[name] - value) / max(abs(value), 1e-300)
    worst = max(worst, error)
    if not error <= limit:
        sys.exit(f"{name}: native {value!r}, WebAssembly {wasm[name]!r}, off by {error:.3g} of it")
print(f"WebAssembly agrees with native in {len(native)} numbers, worst {worst:.2g} of the value")
