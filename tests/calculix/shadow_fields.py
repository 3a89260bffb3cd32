"""Temperature tables of framed panes with shadows. Between the lines of a table the field is bilinear, for the program
and for the finite elements alike, so both solve exactly the same field."""
import bisect
import math


def graded_lines(length, shadows, at_edge, at_shadow, growth=1.35, widest=0.08):
    """Lines over 0..length: `at_edge` apart at both ends and `at_shadow` at the shadows' middles, wider away."""
    marks = [(0.0, at_edge), (length, at_edge)] + [(at, at_shadow) for at in shadows]
    wanted = lambda s: min([widest] + [w + (growth - 1) / growth * abs(s - at) for at, w in marks])
    count = 2000
    density = [1.0 / wanted(length * (i + 0.5) / count) for i in range(count)]
    total, sums = sum(density), [0.0]
    for d in density:
        sums.append(sums[-1] + d)
    intervals = math.ceil(total * length / count)
    lines = [0.0]
    for k in range(1, intervals):
        target = total * k / intervals
        i = bisect.bisect_right(sums, target) - 1
        lines.append(round(length * (i + (target - sums[i]) / density[i]) / count, 6))
    return lines + [length]


class Field:
    """celsius[j][i] at (x[i], y[j]), from the lower left corner as seen from outdoors."""

    def __init__(self, name, x, y, temperature):
        self.name, self.x, self.y = name, x, y
        self.celsius = [[temperature(u, v) for u in x] for v in y]

    def table(self):
        rows = [",".join(["y\\x"] + [repr(u) for u in self.x])]
        rows += [",".join([repr(v)] + [repr(t) for t in row]) for v, row in zip(self.y, self.celsius)]
        return "\n".join(rows) + "\n"

    def at(self, u, v):
        def place(lines, s):
            k = min(max(bisect.bisect_right(lines, s), 1), len(lines) - 1)
            return k - 1, (s - lines[k - 1]) / (lines[k] - lines[k - 1])
        (i, a), (j, b) = place(self.x, u), place(self.y, v)
        low, high = self.celsius[j], self.celsius[j + 1]
        return (1 - b) * ((1 - a) * low[i] + a * low[i + 1]) + b * ((1 - a) * high[i] + a * high[i + 1])


def framed(length, scale):
    return lambda s: 1.0 - math.exp(-s / scale) - math.exp(-(length - s) / scale)


def between(lower, upper, scale):
    """1 between the two positions, 0 outside, each border a tanh; None: no border on that side."""
    step = lambda s, at: 0.5 * (1.0 + math.tanh((s - at) / scale))
    return lambda s: (1.0 if lower is None else step(s, lower)) - (0.0 if upper is None else step(s, upper))


FRAME_M, SHADOW_M = 0.03, 0.025  # length scales of the strip at the frame and of a shadow's border
EDGE_LINE_M, SHADOW_LINE_M = 0.008, 0.010  # table intervals there


def field_of(name, w, h, lit_x, lit_y, shaded=6.0, lit=20.0):
    """Sum of the shaded pane and of a lit rectangle; lit_x, lit_y are pairs of borders."""
    fx, fy = framed(w, FRAME_M), framed(h, FRAME_M)
    mx, my = between(*lit_x, SHADOW_M), between(*lit_y, SHADOW_M)
    x = graded_lines(w, [s for s in lit_x if s is not None], EDGE_LINE_M, SHADOW_LINE_M)
    y = graded_lines(h, [s for s in lit_y if s is not None], EDGE_LINE_M, SHADOW_LINE_M)
    return Field(name, x, y, lambda u, v: 10.0 + fx(u) * fy(v) * (shaded + lit * mx(u) * my(v)))


def two_bands(w, h):
    fx, fy = framed(w, FRAME_M), framed(h, FRAME_M)
    lower, upper = between(0.2 * h, 0.4 * h, SHADOW_M), between(0.65 * h, None, SHADOW_M)
    x = graded_lines(w, [], EDGE_LINE_M, SHADOW_LINE_M)
    y = graded_lines(h, [0.2 * h, 0.4 * h, 0.65 * h], EDGE_LINE_M, SHADOW_LINE_M)
    return Field("two bands", x, y, lambda u, v: 10.0 + fx(u) * fy(v) * (6.0 + 20.0 * (lower(v) + upper(v))))


def diagonal(w, h):
    fx, fy = framed(w, FRAME_M), framed(h, FRAME_M)
    lit = between(0.0, None, 0.04)
    x, y = (graded_lines(s, [], EDGE_LINE_M, EDGE_LINE_M, widest=0.024) for s in (w, h))
    return Field("diagonal", x, y,
                 lambda u, v: 10.0 + fx(u) * fy(v) * (6.0 + 20.0 * lit((h * u - w * v) / math.hypot(w, h))))


def shadow_fields():
    w, h, open_ = 1.2, 1.5, (None, None)
    return [
        field_of("frame strip only", w, h, open_, open_),
        field_of("head band", w, h, open_, (None, 0.75 * h)),
        field_of("side band", w, h, (0.3 * w, None), open_),
        field_of("L", w, h, (0.25 * w, None), (None, 0.75 * h)),
        field_of("half", w, h, open_, (None, 0.5 * h)),
        field_of("narrow ring", w, h, (0.08, w - 0.08), (0.08, h - 0.08)),
        field_of("patch at the sill", w, h, (0.4 * w, 0.6 * w), (None, 0.3)),
        diagonal(w, h),
        two_bands(w, h),
        field_of("head band, wide pane", 2.4, 0.6, open_, (None, 0.45)),
    ]
