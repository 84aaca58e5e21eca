#!/usr/bin/env python3
"""The best year of a yard by HiGHS (scipy.optimize.milp), to hold src/planning/supply, which asks GLPK, against.

Written apart from src/supply: there stores are bounded by what may still wait in them, here every cubic metre is followed
from the part it comes in to the part it is used in.

Usage: solve.py draw > cases.toml      makes the cases
       solve.py > ../yard_plan.toml    solves them, makes the table
       solve.py compare                says whether the table is what comes out (1: not, 77: no scipy here)
"""

import contextlib
import importlib.util
import io
import pathlib
import random
import sys
import tomllib

MONTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]


def part(year, at):
    """First day of a part, counted on over the years."""
    n = len(year)
    return at // n * 365.0 + year[at % n]


def until(year, at, days):
    """Parts ahead of the first one that begins so many days later, or more."""
    ahead = 0
    while part(year, at + ahead) - part(year, at) < days - 1e-9:
        ahead += 1
    return ahead


def within(year, at, days):
    """Parts ahead of the last one that begins so many days later, or less."""
    ahead = 0
    while part(year, at + ahead + 1) - part(year, at) <= days + 1e-9:
        ahead += 1
    return ahead


class Programme:
    """Columns x >= 0, rows low <= a x <= high."""

    def __init__(self):
        self.whole, self.rows, self.low, self.high = [], [], [], []

    def columns(self, count, whole=False):
        first = len(self.whole)
        self.whole += [whole] * count
        return list(range(first, first + count))

    def row(self, entries, low, high):
        row = {}
        for column, weight in entries:
            row[column] = row.get(column, 0.0) + weight
        self.rows.append(row)
        self.low.append(low)
        self.high.append(high)

    def least(self, aim):
        """The least of a sum of columns, or None."""
        import numpy
        from scipy import optimize, sparse

        cost = numpy.zeros(len(self.whole))
        for column, weight in aim:
            cost[column] = weight
        at = [(i, j, w) for i, row in enumerate(self.rows) for j, w in row.items()]
        i, j, w = zip(*at)
        rows = sparse.csr_matrix((w, (i, j)), shape=(len(self.rows), len(self.whole)))
        found = optimize.milp(cost, integrality=numpy.array(self.whole, int), options={"mip_rel_gap": 0.0},
                              constraints=optimize.LinearConstraint(rows, self.low, self.high))
        if found.status == 2:
            return None
        assert found.status == 0, found.message
        return found.fun


def solve(case):
    """Places, fillings, hours of the busiest part, compost kept: the least of each with the ones before as they are."""
    year, inf = case["first_day"], float("inf")
    n = len(year)
    model = Programme()
    fills = model.columns(n, whole=True)
    places, busiest = model.columns(1, whole=True)[0], model.columns(1)[0]
    at_once, hours, harvest = [[] for _ in year], [[] for _ in year], [[] for _ in year]
    for f in range(n):
        if not case["may_fill"][f]:
            model.row([(fills[f], 1.0)], 0.0, 0.0)
        ready = until(year, f, case["harvest_days"])
        harvest[(f + ready) % n].append(fills[f])
        hours[(f + ready) % n].append((fills[f], case["harvest_hours"]))
        for k in range(until(year, f, case["harvest_days"] + case["rest_days"])):
            at_once[(f + k) % n].append((fills[f], 1.0))
        for k in range(ready):
            days = part(year, f + k + 1) - part(year, f + k)
            hours[(f + k) % n].append((fills[f], case["daily_hours"] * days))
        for after, worked in case["jobs"]:
            hours[(f + within(year, f, after)) % n].append((fills[f], worked))
    kept, held, given = [], [[] for _ in year], [[] for _ in year]
    for q in range(n):
        flows = model.columns(min(n, within(year, q, case["store_days"])) + 1)
        model.row([(one, 1.0) for one in flows] + [(f, -case["yield_m3"]) for f in harvest[q]], -inf, 0.0)
        for k, flow in enumerate(flows):
            given[(q + k) % n].append((flow, 1.0))
            kept.append((flow, float(k)))
            for j in range(k):
                held[(q + j) % n].append((flow, 1.0))
    for season in case.get("season", []):
        used = [[] for _ in year]
        for a in range(n):
            flows = model.columns(min(n, within(year, a, season["keeps_days"])) + 1)
            model.row([(one, 1.0) for one in flows], -inf, season["arises_m3"][a])
            for k, flow in enumerate(flows):
                used[(a + k) % n].append((flow, 1.0))
        for p in range(n):
            model.row(used[p] + [(fills[p], -season["per_fill_m3"])], 0.0, 0.0)
    for p in range(n):
        model.row(at_once[p] + [(places, -1.0)], -inf, 0.0)
        model.row(hours[p] + [(busiest, -1.0)], -inf, 0.0)
        if "most_hours" in case:
            model.row(hours[p], -inf, case["most_hours"][p])
        model.row(given[p], case["wanted_m3"][p], case["wanted_m3"][p])
        if "store_m3" in case:
            model.row(held[p], -inf, case["store_m3"])
    if case.get("most_places"):
        model.row([(places, 1.0)], -inf, case["most_places"])
    answers = []
    for aim, spare in (([(places, 1.0)], 1e-6), ([(f, 1.0) for f in fills], 1e-6), ([(busiest, 1.0)], 1e-6), (kept, 0)):
        least = model.least(aim)
        if least is None:
            return None
        answers.append(least)
        model.row(aim, -inf, least + spare)
    return answers


def small(draw):
    """A random wish: four or five uneven parts."""
    case = {"first_day": draw.choice([[0, 80, 190, 270], [0, 60, 140, 210, 300]])}
    n = len(case["first_day"])
    case |= {"wanted_m3": [draw.choice([0.0, round(draw.uniform(0, 4), 1), round(draw.uniform(0, 4), 1)]) for _ in range(n)],
             "yield_m3": round(draw.uniform(0.8, 2.2), 2), "harvest_days": draw.randint(60, 420),
             "rest_days": draw.randint(0, 40), "may_fill": [draw.random() > 0.2 for _ in range(n)],
             "store_days": draw.randint(60, 250), "jobs": [[0, 5.0], [1, 0.5], [draw.randint(60, 150), 0.75]],
             "harvest_hours": round(draw.uniform(1, 4), 1), "daily_hours": 0.02}
    if draw.random() < 0.4:
        case["store_m3"] = round(draw.uniform(1, 4), 1)
    if draw.random() < 0.4:
        case["most_hours"] = [round(draw.uniform(20, 50))] * n
    if draw.random() < 0.5:
        case["season"] = [{"per_fill_m3": round(draw.uniform(0.5, 1.5), 1), "keeps_days": draw.randint(0, 300),
                           "arises_m3": [draw.choice([0.0, round(draw.uniform(2, 9), 1)]) for _ in range(n)]}]
    return case


def market_garden():
    """A year in half-months: compost for spring and autumn, leaves in autumn, manure all year, no filling in frost."""
    first, day = [], 0
    for days in MONTHS:
        first += [day, day + 15]
        day += days
    wanted = [0.0] * 4 + [1.8] * 6 + [0.4] * 6 + [1.2] * 4 + [0.2] * 4
    return {"first_day": first, "wanted_m3": wanted, "yield_m3": 1.1, "harvest_days": 304, "rest_days": 7,
            "may_fill": [4 <= p < 22 for p in range(24)], "store_days": 150, "store_m3": 8.0,
            "most_hours": [40.0 if 4 <= p < 22 else 16.0 for p in range(24)],
            "jobs": [[0, 6.0], [1, 0.5], [7, 0.5], [75, 0.75]], "harvest_hours": 3.0, "daily_hours": 1 / 64,
            "season": [{"per_fill_m3": 0.9, "keeps_days": 270,
                        "arises_m3": [9.0 if 18 <= p < 22 else 0.0 for p in range(24)]},
                       {"per_fill_m3": 0.5, "keeps_days": 20, "arises_m3": [1.2] * 24}]}


def write(case, title):
    def words(value):
        return str(value).lower() if isinstance(value, (bool, list)) else repr(value)

    print(f'\n[[case]]\ntitle = "{title}"')
    for key, value in case.items():
        if key != "season":
            print(f"{key} = {words(value)}")
    for season in case.get("season", []):
        print("[[case.season]]")
        for key, value in season.items():
            print(f"{key} = {words(value)}")


def draw_cases():
    draw = random.Random(7)
    print("# Wishes to a yard's year, drawn by solve.py; keys as in src/planning/supply/wish.hpp, jobs as [days after filling, hours].")
    still = {True: 6, False: 2}  # with a plan of several fillings, and without one
    while any(still.values()):
        case = small(draw)
        answers = solve(case)
        if (answers is None or answers[1] > 2.5) and still[answers is not None]:
            still[answers is not None] -= 1
            write(case, f"Random small year {8 - sum(still.values())}")
    write(market_garden(), "A market garden's year in half-months")


def solve_cases():
    print("# The best year of a yard against another solver. Made by yard_plans/solve.py from yard_plans/cases.toml; not tuned.")
    cases = tomllib.loads((pathlib.Path(__file__).parent / "cases.toml").read_text())["case"]
    for number, case in enumerate(cases, 1):
        print(f'\n[[check]]\nid = "YP{number:02}"\ntitle = "{case["title"]}: fewest places, then fillings, then hours of the '
              'busiest part, then compost kept"\nsource = "another formulation (tests/outside/yard_plans/solve.py, flows '
              'from part to part) solved by HiGHS in scipy 1.10.1 (optimize.milp), the plan by GLPK"\n'
              'known = "A (independent run)"\ntolerance = "whole numbers: exact; hours and volumes: what both solvers '
              'leave over, 1e-4"\n[check.expect]')
        answers = solve(case)
        print(f'plan = "{"there is none" if answers is None else "there is one"}"')
        if answers is None:
            continue
        print(f"places = {{ value = {round(answers[0])}, abs = 0 }}\nfills = {{ value = {round(answers[1])}, abs = 0 }}")
        print(f"busiest_h = {{ value = {answers[2]:.6f}, abs = 1e-4 }}\nkept_m3 = {{ value = {answers[3] + 0.0:.6f}, abs = 1e-4 }}")


def compare():
    if importlib.util.find_spec("scipy") is None:
        sys.exit(77)
    table = pathlib.Path(__file__).resolve().parent.parent / "yard_plan.toml"
    with contextlib.redirect_stdout(io.StringIO()) as made:
        solve_cases()
    if tomllib.loads(made.getvalue()) != tomllib.loads(table.read_text()):
        sys.exit(f"{table.name} is not what solve.py finds")


if __name__ == "__main__":
    {"draw": draw_cases, "": solve_cases, "compare": compare}["".join(sys.argv[1:])]()
