"""The README's tour is real output: every block that starts with "$ sunstrain ..." is run and compared, up to a line
"..." if it has one.   readme_tour.py PROGRAM ROOT [--update rewrites the blocks]"""
import os
import re
import shlex
import subprocess
import sys

program, root = sys.argv[1], sys.argv[2]
update = "--update" in sys.argv[3:]
path = os.path.join(root, "README.md")
with open(path, encoding="utf-8") as file:
    readme = file.read()
environment = dict(os.environ, NO_COLOR="1")
environment.pop("COLUMNS", None)
faults = []
blocks = 0


def real(match):
    global blocks
    blocks += 1
    command, shown = match.group(1), match.group(2).rstrip("\n").split("\n")
    ran = subprocess.run([program] + shlex.split(command)[1:], cwd=root, env=environment, capture_output=True, text=True)
    lines = [line.rstrip() for line in ran.stdout.rstrip("\n").split("\n")]
    if ran.returncode != 0:
        faults.append(f"{command}: exit code {ran.returncode}: {ran.stderr.strip()}")
    if shown[-1] == "...":
        lines = lines[: len(shown) - 1] + ["..."]
    if lines != shown:
        different = next((pair for pair in zip(shown, lines) if pair[0] != pair[1]), ("(number of lines)", str(len(lines))))
        faults.append(f"{command}\n  README:  {different[0]}\n  program: {different[1]}")
    return "```\n$ " + command + "\n" + "\n".join(lines) + "\n```"


rewritten = re.sub(r"```\n\$ (sunstrain [^\n]*)\n(.*?)\n```", real, readme, flags=re.S)
if blocks < 2:
    sys.exit("README.md: the tour is missing")
if update:
    with open(path, "w", encoding="utf-8") as file:
        file.write(rewritten)
elif faults:
    sys.exit("README.md differs from the program (rewrite it with --update):\n" + "\n".join(faults))
