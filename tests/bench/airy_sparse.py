"""The edge stress by a general sparse solver: the Airy stress function on Hermite bicubics of a tensor mesh (phi and
its slope zero all round, integral lap(phi) lap(v) = -E alpha integral T lap(v)), NumPy and SciPy's SuperLU."""
import numpy
from scipy import sparse
from scipy.sparse.linalg import splu


def hermite(lines, points, cells, order):
    """Values (order 0), slopes (1) or curvatures (2) of the nodes' two functions each at points of given cells, without
    those of the two ends, which are clamped."""
    h = numpy.diff(lines)[cells]
    t = (points - lines[cells]) / h
    shapes = {
        0: (1 - 3 * t**2 + 2 * t**3, h * (t - 2 * t**2 + t**3), 3 * t**2 - 2 * t**3, h * (t**3 - t**2)),
        1: ((6 * t**2 - 6 * t) / h, 1 - 4 * t + 3 * t**2, (6 * t - 6 * t**2) / h, 3 * t**2 - 2 * t),
        2: ((12 * t - 6) / h**2, (6 * t - 4) / h, (6 - 12 * t) / h**2, (6 * t - 2) / h),
    }[order]
    rows = numpy.tile(numpy.arange(len(points)), 4)
    columns = numpy.concatenate([2 * cells + k for k in range(4)])
    whole = sparse.csr_matrix((numpy.concatenate(shapes), (rows, columns)), shape=(len(points), 2 * len(lines)))
    return whole[:, 2:-2]


class Direction:
    def __init__(self, lines):
        self.lines = numpy.asarray(lines)
        at, weight = numpy.polynomial.legendre.leggauss(4)
        h = numpy.diff(self.lines)
        cells = numpy.repeat(numpy.arange(len(h)), 4)
        self.points = (self.lines[:-1, None] + 0.5 * h[:, None] * (1 + at)).ravel()
        self.weights = (0.5 * h[:, None] * weight).ravel()
        self.values, slopes, self.curvatures = (hermite(self.lines, self.points, cells, k) for k in range(3))
        gram = lambda a: (a.T @ sparse.diags(self.weights) @ a).tocsc()
        self.mass, self.slope, self.bend = gram(self.values), gram(slopes), gram(self.curvatures)
        last = len(h) - 1
        self.at_lines = hermite(self.lines, self.lines, numpy.minimum(numpy.arange(len(self.lines)), last), 0)
        self.end_curvature = hermite(self.lines, self.lines[[0, -1]], numpy.array([0, last]), 2)


class AirySparse:
    """The shape: assembled and factored once."""

    def __init__(self, x_lines, y_lines):
        self.x, self.y = Direction(x_lines), Direction(y_lines)
        x, y = self.x, self.y
        kron = lambda a, b: sparse.kron(a, b, format="csc")
        self.factors = splu(kron(x.bend, y.mass) + 2 * kron(x.slope, y.slope) + kron(x.mass, y.bend),
                            permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True})

    def samples(self, temperature):
        return numpy.array([[temperature(u, v) for v in self.y.points] for u in self.x.points])

    def solve(self, sampled, stress_per_k):
        """edge: [(position, stress)] at the lines, from the temperature at the Gauss points."""
        x, y = self.x, self.y
        weighted = sampled * x.weights[:, None] * y.weights
        load = x.curvatures.T @ (y.values.T @ weighted.T).T + x.values.T @ (y.curvatures.T @ weighted.T).T
        phi = self.factors.solve(-stress_per_k * load.ravel()).reshape(load.shape)
        bottom_top = (y.end_curvature @ phi.T) @ x.at_lines.T
        left_right = (x.end_curvature @ phi) @ y.at_lines.T
        pairs = lambda at, stress: list(zip(at.tolist(), stress.tolist()))
        return {"bottom": pairs(x.lines, bottom_top[0]), "top": pairs(x.lines, bottom_top[1]),
                "left": pairs(y.lines, left_right[0]), "right": pairs(y.lines, left_right[1])}
