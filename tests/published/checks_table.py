"""The table of checks against published figures in DEVELOPERS.md: what the test program compared when it ran.

    python3 checks_table.py PUBLISHED_TESTS DEVELOPERS.md            the table as it stands is what a run gives
    python3 checks_table.py PUBLISHED_TESTS DEVELOPERS.md --update   write it anew

One row a test case: the comparison that came out furthest off, and how many there were. Off is measured against the
published figure, or against the case's middle one where that is larger (for figures near 0). The source is the case's own comment, up to its first full stop.
"""
import pathlib
import re
import statistics
import subprocess
import sys
import xml.etree.ElementTree as ElementTree

BEGIN, END = "<!-- checks: written by tests/published/checks_table.py -->", "<!-- end of checks -->"
STAGES = {"sun": "sun", "weather": "sun", "optics": "optics", "heat": "heat", "section": "heat", "quench": "heat", "plane": "heat", "sealed": "sealed units", "field": "field", "stress": "stress",
          "strength": "strength", "rules": "rules", "hand": "hand methods", "whole": "whole jobs", "everyday": "whole jobs",
          "sobol": "samples", "break": "cracks"}
ORDER = ["sun", "optics", "heat", "field", "stress", "strength", "rules", "sealed units", "hand methods", "whole jobs", "samples", "cracks"]
NUMBER = r"(-?\d+\.?\d*(?:e[+-]?\d+)?)f?"
COMPARED = re.compile(NUMBER + r" == Approx\( " + NUMBER + r" \)")
LEAST_CASES, LEAST_OF_STAGE, LONGEST_SOURCE = 60, 6, 180


def comments(path):
    """Of every test case of a file, its name's beginning and the comment at its head, above it, or of the file."""
    lines = path.read_text().splitlines()
    opening = [line for line in lines[:next(i for i, line in enumerate(lines) if not line.startswith("//"))]]
    for i, line in enumerate(lines):
        if not line.startswith("TEST_CASE("):
            continue
        above, first = [], i
        while first > 0 and lines[first - 1].startswith("//"):
            first -= 1
            above.insert(0, lines[first])
        while not lines[i].rstrip().endswith("{") and "{ " not in lines[i]:
            i += 1
        inside = []
        while i + 1 < len(lines) and lines[i + 1].strip().startswith("//"):
            i += 1
            inside.append(lines[i])
        text = " ".join(part.strip().removeprefix("//").strip() for part in (above or inside or opening))
        yield re.match(r'TEST_CASE\("([^"]*)', line).group(1), text


def source_of(text):
    # The first full stop after a word of some length: "ed.", "ch." and "J." are none.
    end = next((m.start() for m in re.finditer(r"(?<=[a-z0-9)]{3})\.(?= [A-Z]|$)", text)), len(text))
    text = text[:end]
    if len(text) > LONGEST_SOURCE:
        text = text[:LONGEST_SOURCE].rsplit(" ", 1)[0].rstrip(",;:") + " ..."
    return text.replace("|", "/")


def compared(program):
    done = subprocess.run([program, "-s", "-r", "xml", "~[slow]"], stdout=subprocess.PIPE, check=True, text=True)
    for case in ElementTree.fromstring(done.stdout).iter("TestCase"):
        pairs = []
        for expression in case.iter("Expression"):
            found = COMPARED.search(expression.find("Expanded").text)
            if found:
                pairs.append((float(found.group(1)), float(found.group(2))))
        if pairs:
            yield pathlib.Path(case.get("filename")).name, case.get("name"), pairs


def furthest_off(pairs):
    middle = statistics.median(abs(published) for _, published in pairs)
    return max(pairs, key=lambda pair: abs(pair[0] - pair[1]) / max(abs(pair[1]), middle, 1e-300))


def difference(ours, published):
    gap = ours - published
    return "0" if abs(gap) <= 1e-6 * abs(published) else f"{gap:+.2g}"


def digits(value):
    return f"{value:.4g}"


def rows(program):
    sources = {}
    for path in pathlib.Path(__file__).parent.glob("*_test.cpp"):
        for name, text in comments(path):
            sources[name] = text
    for file, name, pairs in compared(program):
        ours, published = furthest_off(pairs)
        text = next(text for known, text in sources.items() if name.startswith(known))
        shown = re.sub(r"^published \w+: ", "", name)
        yield STAGES[file.split("_")[0]], shown, source_of(text), digits(published), digits(ours), difference(ours, published), len(pairs)


def table(program):
    found = sorted(rows(program), key=lambda row: ORDER.index(row[0]))
    for row in found:
        if not row[2]:
            sys.exit(f"{row[1]}: the test case names no source")
    of_stage = {stage: sum(row[0] == stage for row in found) for stage in ORDER[:5]}
    if len(found) < LEAST_CASES or min(of_stage.values()) < LEAST_OF_STAGE:
        sys.exit(f"too few checks: {len(found)}, by stage {of_stage}")
    lines = ["| stage | check | source | published | ours | difference | compared |", "|---|---|---|---|---|---|---|"]
    lines += ["| " + " | ".join(map(str, row)) + " |" for row in found]
    return "\n".join(lines)


def main():
    program, document = sys.argv[1], pathlib.Path(sys.argv[2])
    text = document.read_text()
    before, rest = text.split(BEGIN)
    held, after = rest.split(END)
    made = f"\n{table(program)}\n"
    if "--update" in sys.argv:
        document.write_text(before + BEGIN + made + END + after)
    elif held != made:
        wrong = [line for line in made.splitlines() if line not in held.splitlines()]
        sys.exit("DEVELOPERS.md: the table of checks is not what a run gives; --update writes it anew.\n" + "\n".join(wrong))


main()
