#!/usr/bin/env python3
"""Every shared fact is told alike wherever it is told.

    consistency.py STILLHEAP FOLDER [SITE ...]

Plans each site of sites/ on the draft grid, reads plan.json, forecast.json, the CSV files, the text of the pack, what `check`,
`plan`, `status` and `today` print and what the page gets, and holds each fact of facts.py to its home. Ends with 1 and a line a
contradiction. 77: pdftotext is missing.
"""
import contextlib
import csv
import datetime
import json
import re
import shutil
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
import facts  # noqa: E402


class Findings:
    def __init__(self):
        self.lines, self.compared = [], 0

    def hold(self, site, what, home, told, tolerance, where):
        self.compared += 1
        if home is None or abs(home - told) > tolerance + 1e-9 * abs(told):
            self.lines.append(f"{site}: {what}: home says {home}, {where} says {told}")

    def same(self, site, what, home, told, where):
        self.compared += 1
        if home != told:
            self.lines.append(f"{site}: {what}: home says {home!r}, {where} says {told!r}")


def run(program, *arguments, expect=0):
    done = subprocess.run([program, *map(str, arguments)], capture_output=True, text=True)
    if done.returncode != expect:
        raise SystemExit(f"{' '.join(map(str, arguments))} ended with {done.returncode}\n{done.stdout}{done.stderr}")
    return done.stdout


def pages_of(pdf):
    text = subprocess.run(["pdftotext", "-layout", str(pdf), "-"], capture_output=True, text=True, check=True).stdout
    return [page for page in text.split("\f") if page.strip()]


def read_fact(findings, site, plan, pages, fact, grown=1.0):
    """Holds every place of the pack that states a fact to its home; `grown` makes the home wrong, to see that it shows."""
    homes = [home for home in (fact.home(plan, vessel) for vessel in plan["vessels"]) if home is not None]
    stated = 0
    for number, page in enumerate(pages, 1):
        for pattern, reader in fact.patterns:
            for match in re.finditer(pattern, page):
                told, tolerance = reader(match[1])
                stated += 1
                # A plan of several kinds of vessel is right when a number is one of theirs.
                nearest = min((home * grown for home in homes), key=lambda home: abs(home - told))
                findings.hold(site, fact.name, nearest, told, tolerance, f"page {number} of the pack, \"{match[0]}\"")
    if stated < fact.least:
        findings.lines.append(f"{site}: {fact.name}: the pack states it {stated} times; the test looks for {fact.least} at least")


def read_pack(findings, site, plan, pages):
    for fact in facts.FACTS:
        if not fact.only(plan):
            continue
        read_fact(findings, site, plan, pages, fact)
        wrong = Findings()
        read_fact(wrong, site, plan, pages, fact, grown=1.3)
        if not wrong.lines:
            findings.lines.append(f"{site}: {fact.name}: a home that is wrong by a third is not noticed")


def read_length(findings, site, plan, pages):
    """A pack for one kind of vessel can be carried: 22 pages like the demo's; two more where lists are long."""
    if len(plan["vessels"]) != 1 or "Yard plan" in "".join(pages):
        return
    findings.compared += 1
    most = 22 if site in ("metric-one", "us-round") else 24
    if len(pages) > most:
        findings.lines.append(f"{site}: the pack has {len(pages)} pages, more than {most}")


def read_numbers(findings, site, texts):
    """No number that a person reads has an exponent, but for balance errors."""
    for where, text in texts:
        findings.compared += 1
        for line in text.splitlines():
            if re.search(r"\d[eE]\+?\d", line) and "Balance errors" not in line:
                findings.lines.append(f"{site}: {where}: a number with an exponent: {line.strip()}")


def read_forecast(findings, site, plan, folder):
    forecasts = json.loads((folder / "forecast.json").read_text())["forecasts"]
    for vessel, one in zip(plan["vessels"], forecasts):
        summary = one["forecast"]["summary"]
        for key, band in vessel["outlook"].items():
            same_key = key if key in summary else key + "_share"
            if isinstance(band, dict) and "middle" in band and same_key in summary:
                for end in ("low", "middle", "high"):
                    findings.same(site, f"{key} {end}", band[end], summary[same_key][end], "forecast.json")
        check_bands(findings, site, one["forecast"])


def check_bands(findings, site, value, where="forecast.json"):
    """Wherever a middle has a low and a high, it lies between them."""
    if isinstance(value, dict):
        if {"low", "middle", "high"} <= value.keys() and None not in value.values():
            findings.compared += 1
            if not value["low"] <= value["middle"] <= value["high"]:
                findings.lines.append(f"{site}: {where}: {value['low']} <= {value['middle']} <= {value['high']} does not hold")
        for key, inner in value.items():
            check_bands(findings, site, inner, f"{where}.{key}")
    elif isinstance(value, list):
        for at, inner in enumerate(value):
            check_bands(findings, site, inner, f"{where}[{at}]")


def read_calendar(findings, site, plan, folder):
    with open(folder / "calendar.csv", newline="") as file:
        rows = [row for row in csv.DictReader(line for line in file if not line.startswith("#"))]
    told = [(row["date"], row["what"]) for row in rows]
    findings.same(site, "calendar", [(day["date"], day["what"]) for day in plan["calendar"]], told, "calendar.csv")


def read_water(findings, site, plan, folder, pages):
    """One water programme: what the forecast sprinkles, water.csv and the card on the wall say the same."""
    forecasts = json.loads((folder / "forecast.json").read_text())["forecasts"]
    with open(folder / "water.csv", newline="") as file:
        table = list(csv.DictReader(line for line in file if not line.startswith("#")))
    card = [text for page in pages if re.match(r"\s*Water card", page) for text in re.findall(r"(\d+ (?:min|s))\s+(?:every|daily)", page)]
    on_paper = []
    for vessel, one in zip(plan["vessels"], forecasts):
        programme, name = vessel["water"]["programme"], vessel["design"]["name"]
        sprinkled = one["forecast"]["summary"]["water_sprinkled_kg"]
        findings.hold(site, f"{name}, water that gets in", programme["reaching_kg"],
                      sprinkled["middle"] if isinstance(sprinkled, dict) else sprinkled, 1e-6 * programme["reaching_kg"] + 1e-9,
                      "forecast.json")
        rows = [row for row in table if row["vessel"] == name]
        findings.same(site, f"{name}, half-months", [half["first_day"] for half in programme["half_months"]],
                      [row["first_day"] for row in rows], "water.csv")
        for half, row in zip(programme["half_months"], rows):
            runs = half["setting"] == "runs"
            findings.same(site, f"{name} {half['first_day']}, whether it runs", runs,
                          row["setting"].startswith(("every", "daily")), "water.csv")
            for key in ("every_days", "run_s", "run_let_out_kg") if runs else ():
                findings.hold(site, f"{name} {half['first_day']}, {key}", half[key], float(row[key]), 1e-6 * half[key], "water.csv")
            if runs and programme["by"] == "line":
                on_paper.append(re.split(" every| daily", half["says"]["metric"])[0])
    findings.same(site, "minutes on the water card", on_paper, card, "the pack")


@contextlib.contextmanager
def served(program, yard):
    """The page's server on a free port of this machine; gives a function that asks it."""
    page = yard / "page"  # the interface alone is asked, whatever page is built
    page.mkdir(exist_ok=True)
    (page / "index.html").write_text("<!doctype html><title>none</title>")
    server = subprocess.Popen([program, "serve", str(yard), "--page", str(page), "--port", "0"],
                              stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    port = None
    while port is None:  # the server says which it took
        line = server.stdout.readline()
        if not line:
            raise SystemExit(f"the server ended with {server.wait(20)}")
        found = re.search(r"://[^/\s]*:(\d+)", line)
        port = found[1] if found else None

    def ask(path):
        for _ in range(100):
            try:
                with urllib.request.urlopen(f"http://localhost:{port}{path}", timeout=20) as answer:
                    return json.load(answer)
            except (ConnectionError, urllib.error.URLError):
                if server.poll() is not None:
                    raise SystemExit(f"the server ended with {server.returncode}")
                time.sleep(0.1)
        raise SystemExit("the server does not answer")

    try:
        yield ask
    finally:
        server.terminate()
        server.wait(20)


def record_a_hot_week(program, yard, design):
    """A vessel filled five days ago and read daily as it got hot, the way `status` and `today` meet it most."""
    note = ["--by", "ab", "--zone", "+00:00"]
    now = datetime.datetime.now(datetime.timezone.utc)
    at = lambda days: (now - datetime.timedelta(days=days)).strftime("%Y-%m-%dT%H:%M")  # noqa: E731
    run(program, "record", "vessel", yard, "--name", "First", "--design", design, *note)
    run(program, "record", "fill", yard, "--vessel", "First", "--batch", "b1", "--at", at(5.2), *note)
    for days, celsius in ((5, 20), (4, 35), (3, 48), (2, 58), (1, 62), (0.05, 63)):
        run(program, "record", "reading", yard, "--vessel", "First", "--place", "core", "--at", at(days), "--temperature",
            f"{celsius} degC", *note)


def key_of(task):
    return task["vessel"], task["id"], task["what"], task["why"]


def read_findings(findings, program, site, plan, yard):
    """What needs no forecast is told alike by check, sheets and plan."""
    told = [(one["where"], one["what"]) for one in json.loads(run(program, "check", yard, "--json"))["warnings"]]
    planned = [(one["where"], one["what"]) for one in plan["warnings"]]
    findings.same(site, "findings of check", [], [one for one in told if one not in planned], "check alone")
    sheets = run(program, "sheets", yard, "-o", yard / "sheets")
    findings.same(site, "findings of sheets", told, [(where, what) for where, what in told if f"{where}: {what}" in sheets], "sheets")
    return "\n".join(pages_of(yard / "sheets" / "building.pdf"))


# What the trade has no US unit for: resistance of cloth to air and vapour, properties of a substance, uptake of oxygen.
NO_US_UNIT = re.compile(r"Pa s/m|m[2²] Pa/W|J/\(kg K\)|m[2²]/s|g of oxygen per kg|g O2\s+per\s+kg|K ×")
METRIC = re.compile(r"(?<![\d/.-])\d[\d.]* (°C|degC|K|mm|cm|m|km|m2|m²|m3|m³|kg|kg/m3|kg/m³|L|mL|MPa|kPa|Pa|bar)(?![\w/²³])(?!\s*=)")


def read_units(findings, site, texts):
    """A US yard reads no metric amount."""
    for where, text in texts:
        findings.compared += 1
        for line in text.splitlines():
            found = METRIC.search(NO_US_UNIT.sub("", line))
            if found:
                findings.lines.append(f"{site}: {where}: \"{found[0]}\" in a US yard: {line.strip()[:160]}")


def read_yard(findings, program, site, plan, yard):
    """What is due and in which phase a vessel is: the same from the command line and from what the page gets."""
    record_a_hot_week(program, yard, plan["vessels"][0]["design"]["name"])
    due = json.loads(run(program, "today", yard, "--json"))["due"]
    status = json.loads(run(program, "status", yard, "--json"))
    expected = sorted(map(key_of, due))
    with served(program, yard) as ask:
        page = ask("/api/today")
        # The server works water programmes out behind the back; a minute is far more than they take.
        for _ in range(20):
            if sorted(map(key_of, page["tasks"])) == expected:
                break
            time.sleep(3)
            page = ask("/api/today")
    findings.same(site, "what is due", expected, sorted(map(key_of, page["tasks"])), "the page")
    findings.same(site, "alerts of status stand in today too",
                  [], [alert["id"] for vessel in status["vessels"] for alert in vessel.get("alerts", [])
                       if alert["id"] not in {one["id"] for one in due}], "today")


def one_site(findings, program, source, folder):
    name = source.stem
    yard = folder / name
    shutil.rmtree(yard, ignore_errors=True)
    yard.mkdir(parents=True)
    shutil.copy(source, yard / "site.toml")
    checked = run(program, "check", yard)
    out = yard / "out"
    planned = run(program, "plan", yard, "-o", out, "--grid", "draft", "--members", 16)
    plan = json.loads((out / "plan.json").read_text())
    pack, appendix = pages_of(out / "pack.pdf"), pages_of(out / "appendix.pdf")
    pages = pack + appendix
    read_length(findings, name, plan, pack)
    tables = [(file.name, file.read_text()) for file in sorted(out.glob("*.csv"))]
    read_numbers(findings, name, [("check", checked), ("plan", planned), ("the pack", "\n".join(pages)), *tables])
    read_pack(findings, name, plan, pages)
    read_water(findings, name, plan, out, pages)
    read_forecast(findings, name, plan, out)
    read_calendar(findings, name, plan, out)
    building = read_findings(findings, program, name, plan, yard)
    read_yard(findings, program, name, plan, yard)
    if plan["site"]["units"] == "us":
        read_units(findings, name, [("check", checked), ("plan", planned), ("the pack", "\n".join(pages)), ("building.pdf", building),
                                    ("status", run(program, "status", yard)), ("today", run(program, "today", yard)),
                                    ("assumptions.csv", (out / "assumptions.csv").read_text()),
                                    ("calendar.csv", (out / "calendar.csv").read_text())])


def main():
    program, folder = sys.argv[1], Path(sys.argv[2])
    if not shutil.which("pdftotext"):
        return 77
    sites = sorted((Path(__file__).parent / "sites").glob("*.toml"))
    wanted = set(sys.argv[3:])
    findings = Findings()
    for source in sites:
        if not wanted or source.stem in wanted:
            one_site(findings, program, source, folder)
    print("\n".join(findings.lines))
    print(f"{findings.compared} comparisons, {len(findings.lines)} contradictions")
    return 1 if findings.lines or not findings.compared else 0


if __name__ == "__main__":
    sys.exit(main())
