"""Hierarchical Bayes over the records: emulators, Gauss-Newton and Laplace. See docs/decisions/0010-conditioning.md."""
import numpy as np
from scipy.linalg import cho_factor, cho_solve
from scipy.optimize import minimize

from inputs import CLASSES, FILES, INPUTS, LEARNED, OWN, RATE_SPREAD, measured
from runs import load

SHARE = {"global": 0.3, "class": 0.4, "record": 0.3}  # of the prior variance
KINDS = {"single": (4.0, 1.0), "average": (4.0, 1.0), "time": (0.4, 0.1), "loss": (0.3, 0.1)}  # prior, least
DAYS = 200.0  # stands for "never"


def kind_of(key):
    if "lost" in key:
        return "loss"
    if key.endswith("_c"):
        return "average" if key.startswith("average") or "days_3_to_30" in key else "single"
    return "time"


def scale(kind, value):
    """Times and losses count by their logarithm; nothing lost and a day never reached have a place too."""
    value = np.asarray(value, float)
    if kind == "loss":
        return np.log(np.clip(value, 0.01, None))
    if kind == "time":
        return np.log(np.clip(np.where(np.isfinite(value), value, DAYS), 0.25, DAYS))
    return np.clip(value, -30.0, 100.0)


class Emulator:
    """Gaussian process: linear and squared-exponential part over the inputs, the rest is noise."""

    def __init__(self, x, y):
        self.x, self.middle, self.unit = x, y.mean(), max(y.std(), 1e-3)
        self.y = (y - self.middle) / self.unit
        start = np.log([0.3, 0.7, 3.0, 0.3])
        found = minimize(self.cost, start, method="L-BFGS-B", bounds=[(-4, 2), (-4, 2), (0.3, 3), (-3, 1)])
        self.set(found.x)

    def kernel(self, a, b):
        linear, bent, length, _ = self.p
        square = ((a[:, None, :] - b[None, :, :]) ** 2).sum(2)
        return linear**2 * (a @ b.T) + bent**2 * np.exp(-0.5 * square / length**2)

    def set(self, logs):
        self.p = np.exp(logs)
        self.factor = cho_factor(self.kernel(self.x, self.x) + (self.p[3] ** 2 + 1e-6) * np.eye(len(self.x)))
        self.weight = cho_solve(self.factor, self.y)

    def cost(self, logs):
        self.set(logs)
        return 0.5 * self.y @ self.weight + np.log(np.diag(self.factor[0])).sum() + 0.05 * (logs**2).sum()

    def at(self, x):
        """Mean, slope by input and variance (with the noise of the inputs that it does not see) at one point."""
        k = self.kernel(x[None], self.x)[0]
        linear, bent, length, noise = self.p
        gauss = k - linear**2 * (self.x @ x)
        slope = linear**2 * (self.weight @ self.x) + ((self.weight * gauss) @ (self.x - x)) / length**2
        own = linear**2 * (x @ x) + bent**2
        variance = max(own - k @ cho_solve(self.factor, k), 0.0) + noise**2
        return self.middle + self.unit * (k @ self.weight), self.unit * slope, self.unit**2 * variance


class Model:
    """All records' emulators and where each one's inputs stand in the vector of unknowns."""

    def __init__(self):
        self.want = measured()
        self.emulator, self.wanted = {}, {}
        for id in FILES:
            points, answers = load(id)
            x = np.column_stack([points[name] for name in INPUTS])
            for key, value in answers.items():
                kind = kind_of(key)
                good = ~np.isnan(value)
                low, high = (float(scale(kind, v)) for v in self.want[id][key])
                self.emulator[id, key] = Emulator(x[good], scale(kind, value[good]))
                self.wanted[id, key] = (kind, 0.5 * (low + high), (high - low) ** 2 / 12.0)
        n, own = len(LEARNED), len(OWN)
        self.size = n * (1 + len(CLASSES) + len(FILES)) + own * len(FILES)

    def rows(self, id):
        """Matrix from unknowns to the record's emulator inputs."""
        n, own = len(LEARNED), len(OWN)
        c, r = CLASSES.index(FILES[id][1]), list(FILES).index(id)
        matrix = np.zeros((n + own, self.size))
        for i, name in enumerate(LEARNED):
            spread = RATE_SPREAD.get(FILES[id][1], 1.0) if name == "rate_factor" else 1.0
            for block, share in ((0, "global"), (1 + c, "class"), (1 + len(CLASSES) + r, "record")):
                matrix[i, block * n + i] = spread * np.sqrt(SHARE[share])
        first = n * (1 + len(CLASSES) + len(FILES)) + own * r
        matrix[n:, first:first + own] = np.eye(own)
        return matrix


def fit(model, without=(), rounds=60):
    """Posterior mean and covariance of the unknowns, discrepancies by kind, and how far the last round moved."""
    theta = np.zeros(model.size)
    spread = {kind: prior for kind, (prior, _) in KINDS.items()}
    used = [pair for pair in model.emulator if pair[0] not in without]
    matrix = {id: model.rows(id) for id in {id for id, _ in used}}
    moved = 1.0
    for _ in range(rounds):
        precision, pull, seen = np.eye(model.size), np.zeros(model.size), []
        for id, key in used:
            kind, wanted, range_variance = model.wanted[id, key]
            mean, slope, variance = model.emulator[id, key].at(matrix[id] @ theta)
            row = slope @ matrix[id]
            total = spread[kind] ** 2 + variance + range_variance
            precision += np.outer(row, row) / total
            pull += row * (wanted - mean + row @ theta) / total
            seen.append((kind, wanted - mean, row, variance + range_variance))
        covariance = np.linalg.inv(precision)
        step = covariance @ pull - theta
        theta = theta + 0.5 * step
        for kind, (prior, least) in KINDS.items():
            square = [res**2 + row @ covariance @ row - rest for k, res, row, rest in seen if k == kind]
            # Half-normal prior of the size written down, worth two more values.
            new = np.sqrt((sum(square) + 2 * prior**2) / (len(square) + 2)) if sum(square) > -2 * prior**2 else least
            spread[kind] = 0.5 * spread[kind] + 0.5 * max(new, least, 0.2 * prior)
        moved = np.abs(step).max()
        if moved < 1e-3:
            break
    return theta, covariance, spread, moved


def draws(model, theta, covariance, id, count, seed):
    """Draws of g + k of the record's class with a new record effect and new own values: points for LEARNED and OWN."""
    random = np.random.default_rng(seed)
    n = len(LEARNED)
    factor = np.linalg.cholesky(covariance + 1e-10 * np.eye(len(theta)))
    matrix = model.rows(id)
    shared = matrix[:n, :n * (1 + len(CLASSES))]
    out = []
    for _ in range(count):
        one = theta + factor @ random.standard_normal(len(theta))
        new = np.sqrt(SHARE["record"]) * random.standard_normal(n)
        spread = np.array([RATE_SPREAD.get(FILES[id][1], 1.0) if name == "rate_factor" else 1.0 for name in LEARNED])
        out.append(np.concatenate([shared @ one[:n * (1 + len(CLASSES))] + spread * new,
                                   random.standard_normal(len(OWN))]))
    return np.array(out)


def shift_of_class(model, theta, kind):
    """What a class shares, g + k, in deviations; a class without a record keeps the prior of its k."""
    n = len(LEARNED)
    id = next((id for id in FILES if FILES[id][1] == kind), None)
    if id:
        return model.rows(id)[:n, :n * (1 + len(CLASSES))] @ theta[:n * (1 + len(CLASSES))]
    c = CLASSES.index(kind)
    return np.sqrt(SHARE["global"]) * theta[:n] + np.sqrt(SHARE["class"]) * theta[n * (1 + c):n * (2 + c)]
