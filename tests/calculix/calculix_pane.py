"""A free pane in CalculiX: plane stress, eight-node elements (CPS8), the stress along its four edges."""
import pathlib
import subprocess

YOUNG_MPA, EXPANSION, POISSON = 70e3, 9e-6, 0.22  # mm, MPa; Poisson's ratio must not matter, and does not


def divided(lines, parts):
    out = []
    for a, b in zip(lines, lines[1:]):
        out += [a + (b - a) * k / parts for k in range(parts)]
    return out + [lines[-1]]


def half_steps(lines):
    """Lines with the mid-side positions between them."""
    return divided(lines, 2)


def input_text(x_lines, y_lines, temperature):
    """x_lines, y_lines in m; node number 1 + i + j * columns over the lines and the middles between them."""
    x, y = half_steps(x_lines), half_steps(y_lines)
    columns, nodes, elements, heat = len(x), [], [], []
    number = lambda i, j: 1 + i + j * columns
    for j, v in enumerate(y):
        for i, u in enumerate(x):
            if i % 2 and j % 2:
                continue  # an eight-node element has no node in its middle
            nodes.append(f"{number(i, j)},{1000 * u:.9g},{1000 * v:.9g}")
            heat.append(f"{number(i, j)},{temperature(u, v):.12g}")
    for j in range(0, len(y) - 1, 2):
        for i in range(0, len(x) - 1, 2):
            around = [(0, 0), (2, 0), (2, 2), (0, 2), (1, 0), (2, 1), (1, 2), (0, 1)]
            elements.append(",".join(map(str, [len(elements) + 1] + [number(i + a, j + b) for a, b in around])))
    return "\n".join(
        ["*NODE,NSET=ALL"] + nodes + ["*ELEMENT,TYPE=CPS8,ELSET=PANE"] + elements +
        ["*MATERIAL,NAME=GLASS", "*ELASTIC", f"{YOUNG_MPA},{POISSON}", "*EXPANSION,ZERO=0", f"{EXPANSION}",
         "*SOLID SECTION,ELSET=PANE,MATERIAL=GLASS", "1.",
         "*BOUNDARY", f"{number(0, 0)},1,2", f"{number(columns - 1, 0)},2,2",  # against rigid motion, no more
         "*INITIAL CONDITIONS,TYPE=TEMPERATURE", "ALL,0.",
         "*STEP", "*STATIC", "*TEMPERATURE"] + heat + ["*EL FILE,OUTPUT=2D", "S", "*END STEP"]) + "\n"


def nodal_stress(frd):
    """node: (sxx, syy), as the program extrapolates to the nodes and averages over the elements that meet there."""
    stress, reading = {}, False
    with open(frd, encoding="ascii") as lines:
        for line in lines:
            if line.startswith(" -4"):
                reading = line.split()[1] == "STRESS"
            elif reading and line.startswith(" -1"):
                stress[int(line[3:13])] = (float(line[13:25]), float(line[25:37]))
    return stress


def run(directory, text, name="pane"):
    """Writes and runs a job; the frd file."""
    directory = pathlib.Path(directory)
    (directory / f"{name}.inp").write_text(text, encoding="ascii")
    done = subprocess.run(["ccx", name], cwd=directory, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False)
    frd = directory / f"{name}.frd"
    if done.returncode or not frd.exists() or b"*ERROR" in done.stdout:
        raise RuntimeError("ccx: " + done.stdout.decode(errors="replace")[-800:])
    return frd


def edge_stress(frd, x_lines, y_lines):
    """edge: [(position_m, MPa)] along the edge at the element corners, from the left or from the bottom. Mid-side
    nodes are left out: the program gives them the mean of the two corners beside them."""
    stress, columns = nodal_stress(frd), 2 * len(x_lines) - 1
    last_x, last_y = 2 * (len(x_lines) - 1), 2 * (len(y_lines) - 1)
    at = lambda i, j: stress[1 + i + j * columns]
    return {
        "bottom": [(u, at(2 * i, 0)[0]) for i, u in enumerate(x_lines)],
        "top": [(u, at(2 * i, last_y)[0]) for i, u in enumerate(x_lines)],
        "left": [(v, at(0, 2 * j)[1]) for j, v in enumerate(y_lines)],
        "right": [(v, at(last_x, 2 * j)[1]) for j, v in enumerate(y_lines)],
    }


def solve(directory, field, parts):
    """Edge stress of a field's table, every interval of the table cut into `parts` elements."""
    x, y = divided(field.x, parts), divided(field.y, parts)
    return edge_stress(run(directory, input_text(x, y, field.at)), x, y)


def peak(edges):
    """The highest stress: the parabola through the highest node and its two neighbors."""
    best = 0.0
    for points in edges.values():
        k = max(range(len(points)), key=lambda i: points[i][1])
        best = max(best, points[k][1])
        if 0 < k < len(points) - 1:
            (a, fa), (b, fb), (c, fc) = points[k - 1:k + 2]
            slope, bend = (fc - fa) / (c - a), ((fc - fb) / (c - b) - (fb - fa) / (b - a)) / (c - a)
            slope += bend * (2 * b - a - c)  # at b
            if bend < 0 and a <= b - slope / (2 * bend) <= c:
                best = max(best, fb - slope * slope / (4 * bend))
    return best
