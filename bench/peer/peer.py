#!/usr/bin/env python3
"""The slice of case.json by a general finite-element library (DOLFINx), and by our own steps, side by side.

Both solve the same equations with the same staggering (gas, oxygen with decay, heat; backward Euler). Each runs a
ladder of grids and steps; the error is the root mean square of temperature at the probes against the mean of both
programs' finest answers; the time at the wanted error is read off each ladder. Meshes, forms and compiled code are
ready before the clock starts; times are of the processor, so a busy machine disturbs little. Not part of
the build. Needs python3-dolfinx-real; see README.md beside this file.
"""
import argparse
import json
import logging
import math
import pathlib
import subprocess
import time

import numpy as np
import ufl
from dolfinx import fem, mesh
from dolfinx.fem import petsc as assemble
from mpi4py import MPI
from petsc4py import PETSc

GRAVITY = 9.80665
GAS, MOLAR_AIR, MOLAR_OXYGEN = 8.314462618, 0.028966, 0.0319988
LEAST, BEST, MOST, COOL = 5.0, 58.6, 71.6, 2.0


def cardinal(celsius):
    below = (BEST - LEAST) * ((BEST - LEAST) * (celsius - BEST) - (BEST - MOST) * (BEST + LEAST - 2 * celsius))
    curve = (celsius - MOST) * (celsius - LEAST) ** 2 / below
    return np.where((celsius > LEAST) & (celsius < MOST), curve, 0.0)


def decay_response(celsius):
    cool = COOL ** ((celsius - 20.0) / 10.0) * np.clip(1 + 0.5 * celsius, 0, 1)
    return np.where(celsius < 20.0, cool, cardinal(celsius) / cardinal(np.array(20.0)))


def density(celsius, given):
    return given["pressure_pa"] * MOLAR_AIR / (GAS * (celsius + 273.15))


class Linear:
    """One linear system assembled and solved again and again; the factors are kept while the matrix stays."""

    def __init__(self, left, right, conditions):
        self.left, self.right, self.conditions = fem.form(left), fem.form(right), conditions
        self.matrix = assemble.create_matrix(self.left)
        self.vector = assemble.create_vector(self.right)
        self.solver = PETSc.KSP().create(MPI.COMM_WORLD)
        self.solver.setOperators(self.matrix)
        self.solver.setType("preonly")
        self.solver.getPC().setType("lu")

    def factorise(self):
        self.matrix.zeroEntries()
        assemble.assemble_matrix(self.matrix, self.left, bcs=self.conditions)
        self.matrix.assemble()

    def solve(self, answer):
        with self.vector.localForm() as local:
            local.set(0.0)
        assemble.assemble_vector(self.vector, self.right)
        assemble.apply_lifting(self.vector, [self.left], [self.conditions])
        fem.set_bc(self.vector, self.conditions)
        self.solver.solve(self.vector, answer.vector)


def theirs(given, columns, layers, step_s):
    width, height = given["width_m"], given["height_m"]
    area = mesh.create_rectangle(MPI.COMM_WORLD, [[0.0, 0.0], [width, height]], [columns, layers],
                                 mesh.CellType.triangle)
    space = fem.FunctionSpace(area, ("Lagrange", 1))
    outside_ratio = 0.20946 * MOLAR_OXYGEN / MOLAR_AIR
    temperature, oxygen, oxygen_before, pressure, pool, new_pool = (fem.Function(space) for _ in range(6))
    rate, heat, light, capacity = (fem.Function(space) for _ in range(4))
    temperature.x.array[:] = given["fill_c"]
    oxygen.x.array[:] = outside_ratio
    pool.x.array[:] = given["dry_kg_m3"] * given["pool_share"]
    rest = given["dry_kg_m3"] * (1 - given["pool_share"])

    def dofs(where):
        return fem.locate_dofs_geometrical(space, where)

    scalar = PETSc.ScalarType
    ends = dofs(lambda x: np.isclose(x[1], 0) | np.isclose(x[1], height))
    base = dofs(lambda x: np.isclose(x[1], 0))
    cool = dofs(lambda x: np.isclose(x[1], 0) | np.isclose(x[0], 0) | np.isclose(x[0], width))
    free = fem.dirichletbc(scalar(0.0), ends, space)
    fresh = fem.dirichletbc(scalar(outside_ratio), base, space)
    held = fem.dirichletbc(scalar(given["outside_c"]), cool, space)
    none_new = fem.dirichletbc(scalar(0.0), base, space)

    u, w = ufl.TrialFunction(space), ufl.TestFunction(space)
    air = given["air_kg_m3"]
    mobility = air * given["permeability_m2"] / given["viscosity_pa_s"]
    up = ufl.as_vector([0.0, GRAVITY])
    draft = Linear(mobility * ufl.inner(ufl.grad(u), ufl.grad(w)) * ufl.dx,
                   mobility * light * ufl.inner(up, ufl.grad(w)) * ufl.dx, [free])
    flow = mobility * (-ufl.grad(pressure) + light * up)

    # Oxygen: Newton on the correction; streamline diffusion keeps coarse grids from swinging.
    diffusivity, storage = air * given["oxygen_m2_s"], given["air_share"] * air
    size = math.hypot(width / columns, height / layers)
    speed = ufl.sqrt(ufl.inner(flow, flow) + 1e-20)
    test = w + size / (2 * speed + 4 * diffusivity / size) * ufl.inner(flow, ufl.grad(w))
    half = given["oxygen_half_percent"]
    percent = 100.0 * MOLAR_AIR / MOLAR_OXYGEN * oxygen
    share = ufl.conditional(ufl.gt(percent, 0.0), percent / (percent + half), percent / half)
    slow = 1 + step_s * rate * ufl.max_value(share, 0.0)
    uptake = given["oxygen_yield"] * rate * share * pool / slow
    residual = (storage * (oxygen - oxygen_before) / step_s + ufl.inner(flow, ufl.grad(oxygen)) + uptake) * test * ufl.dx \
        + diffusivity * ufl.inner(ufl.grad(oxygen), ufl.grad(w)) * ufl.dx
    newton = Linear(ufl.derivative(residual, oxygen, u), -residual, [none_new])
    change = fem.Function(space)

    warm = Linear((capacity / step_s * u * w + given["air_heat_j_kg_k"] * ufl.inner(flow, ufl.grad(u)) * w
                   + given["conductivity_w_m_k"] * ufl.inner(ufl.grad(u), ufl.grad(w))) * ufl.dx,
                  (capacity / step_s * temperature + heat) * w * ufl.dx, [held])
    next_temperature = fem.Function(space)

    steps = round(given["days"] * 86400 / step_s)
    draft.factorise()
    start = time.process_time()
    for _ in range(steps):
        light.x.array[:] = density(given["outside_c"], given) - density(temperature.x.array, given)
        draft.solve(pressure)
        rate.x.array[:] = given["rate_20c_per_s"] * decay_response(temperature.x.array)
        oxygen_before.x.array[:] = oxygen.x.array
        oxygen.x.array[base] = outside_ratio
        for _ in range(20):
            newton.factorise()
            newton.solve(change)
            oxygen.x.array[:] += change.x.array
            if np.max(np.abs(change.x.array)) < 1e-7:
                break
        value = 100.0 * MOLAR_AIR / MOLAR_OXYGEN * oxygen.x.array
        reached = np.where(value > 0, value / (value + half), 0.0)
        new_pool.x.array[:] = pool.x.array / (1 + step_s * rate.x.array * reached)
        heat.x.array[:] = given["heat_per_oxygen_j_kg"] * given["oxygen_yield"] * \
            (pool.x.array - new_pool.x.array) / step_s
        pool.x.array[:] = new_pool.x.array
        capacity.x.array[:] = (rest + pool.x.array) * given["solids_heat_j_kg_k"]
        warm.factorise()
        warm.solve(next_temperature)
        temperature.x.array[:] = next_temperature.x.array
    seconds = time.process_time() - start

    # Vertices of the rectangle back on their grid, then bilinear at the probes.
    place = space.tabulate_dof_coordinates()
    column = np.rint(place[:, 0] / width * columns).astype(int)
    layer = np.rint(place[:, 1] / height * layers).astype(int)
    probes = given["probes"]

    def sample(function):
        grid = np.empty((columns + 1, layers + 1))
        grid[column, layer] = function.x.array
        out = []
        for a in range(1, probes + 1):
            for b in range(1, probes + 1):
                x, z = columns * a / (probes + 1), layers * b / (probes + 1)
                i, j = min(int(x), columns - 1), min(int(z), layers - 1)
                s, t = x - i, z - j
                out.append((1 - s) * ((1 - t) * grid[i, j] + t * grid[i, j + 1])
                           + s * ((1 - t) * grid[i + 1, j] + t * grid[i + 1, j + 1]))
        return out

    return {"seconds": seconds, "steps": steps, "unknowns": (columns + 1) * (layers + 1),
            "temperature_c": sample(temperature), "oxygen_ratio": sample(oxygen)}


def ours(program, case, columns, layers, step_s):
    done = subprocess.run([program, case, str(columns), str(layers), str(step_s)], check=True, capture_output=True,
                          text=True)
    return json.loads(done.stdout)


def time_at(ladder, wanted):
    """Seconds at which a ladder of (error, seconds) reaches the wanted error, straight in the logarithms."""
    ladder = sorted(ladder, reverse=True)
    for (e0, s0), (e1, s1) in zip(ladder, ladder[1:]):
        if e0 >= wanted >= e1:
            part = math.log(e0 / wanted) / math.log(e0 / e1)
            return s0 * (s1 / s0) ** part
    raise SystemExit(f"no rung of the ladder {ladder} brackets an error of {wanted} K")


def main():
    logging.disable(logging.INFO)
    here = pathlib.Path(__file__).resolve().parent
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--ours", default=str(here / "../../build/release/bin/peer_ours"), help="our program")
    parser.add_argument("--case", default=str(here / "case.json"))
    parser.add_argument("--repeat", type=int, default=3, help="each rung's time is the best of so many runs")
    chosen = parser.parse_args()
    given = json.loads(pathlib.Path(chosen.case).read_text())
    rungs = [(8, 10, 14400), (12, 14, 7200), (16, 19, 3600), (24, 29, 1800)]
    finest = (40, 48, 600)
    theirs(given, 8, 10, 43200)  # compiles the forms
    a, b = ours(chosen.ours, chosen.case, *finest), theirs(given, *finest)
    ours_c, theirs_c = np.array(a["temperature_c"]), np.array(b["temperature_c"])
    reference = 0.5 * (ours_c + theirs_c)
    apart = math.sqrt(np.mean((ours_c - theirs_c) ** 2))
    print(f"finest answers: hottest {reference.max():.2f} degC, lowest oxygen ratio {min(a['oxygen_ratio']):.4f} and "
          f"{min(b['oxygen_ratio']):.4f}; {apart:.3f} K apart (root mean square)")
    print("| program | columns x layers | step, s | error, K | seconds |\n|---|---|---|---|---|")
    ladders = {"ours": [], "theirs": []}
    for name, solve in (("ours", lambda *r: ours(chosen.ours, chosen.case, *r)), ("theirs", lambda *r: theirs(given, *r))):
        for rung in rungs:
            runs = [solve(*rung) for _ in range(chosen.repeat)]
            seconds = min(run["seconds"] for run in runs)
            error = math.sqrt(np.mean((np.array(runs[0]["temperature_c"]) - reference) ** 2))
            ladders[name].append((error, seconds))
            print(f"| {name} | {rung[0]} x {rung[1]} | {rung[2]} | {error:.3f} | {seconds:.4f} |", flush=True)
    wanted = given["wanted_error_k"]
    mine, peer = (time_at(ladders[name], wanted) for name in ("ours", "theirs"))
    print(f"at an error of {wanted} K: ours {mine:.4f} s, theirs {peer:.4f} s, ratio {peer / mine:.1f}")


if __name__ == "__main__":
    main()
