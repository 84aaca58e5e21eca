"""Opens runs.nc of a small study with netCDF4 and holds every column against runs.csv.

usage: read_runs.py PROGRAM SITE WORK; exit 77: the library is not installed, nothing was checked.
"""

import csv
import math
import pathlib
import shutil
import subprocess
import sys

SKIPPED = 77
DIGITS = 1e-9  # the CSV file has ten digits, the other one all

STUDY = """
site = "{site}"
way = "list"
impossible = "leave out"
[vary."vessel.channels.radius"]
list = ["10 in", "12 in", "23 in"]
[vary."vessel.wall"]
list = ["open", "closed", "open"]
[set]
"forecast.grid" = "draft"
"forecast.days" = 12
"forecast.members" = 3
"""


def run_study(program, site, work):
    shutil.rmtree(work, ignore_errors=True)
    work.mkdir(parents=True)
    (work / "study.toml").write_text(STUDY.format(site=site))
    subprocess.run([program, "sweep", work / "study.toml", "-o", work / "out"], check=True)
    return work / "out"


def same(number, cell):
    if cell == "":
        return math.isnan(number)
    return math.isclose(number, float(cell), rel_tol=DIGITS, abs_tol=1e-12)


def compare(name, variable, cells):
    values = variable[:]
    if variable.dtype is str:
        if list(values) != cells:
            sys.exit(f"{name}: {list(values)} is not {cells}")
        return
    # NaN is the fill value, so that what is not known is masked in numpy as well.
    numbers = [float(one) for one in values.filled(math.nan)]
    if not all(same(number, cell) for number, cell in zip(numbers, cells)):
        sys.exit(f"{name}: {numbers} is not {cells}")
    if not variable.units or not variable.long_name:
        sys.exit(f"{name} has no unit or no words")


def main():
    try:
        import netCDF4
    except ImportError:
        print("python3-netcdf4 is not installed: nothing was checked")
        return SKIPPED
    out = run_study(sys.argv[1], pathlib.Path(sys.argv[2]).resolve(), pathlib.Path(sys.argv[3]).resolve())
    with open(out / "runs.csv", newline="") as file:
        head, *rows = list(csv.reader(file))
    with netCDF4.Dataset(out / "runs.nc") as data:
        if data.data_model != "NETCDF4" or len(data.dimensions["run"]) != 3:
            sys.exit(f"{data.data_model} with {data.dimensions}")
        if list(data["state"][:]) != ["done", "done", "impossible"]:
            sys.exit(f"states: {list(data['state'][:])}")
        if len(data.variables) != len(head) or len(head) < 40:
            sys.exit(f"{len(data.variables)} variables, {len(head)} columns")
        for column, name in enumerate(head):
            plain = name.split(" (")[0]
            compare(plain, data[plain], [row[column] for row in rows])
        inches = data["vessel.channels.radius"]
        if inches.units != "m" or not math.isclose(float(inches[1]), 12 * 0.0254, rel_tol=1e-12):
            sys.exit(f"radius: {inches[1]} {inches.units}")
        if not float(data["peak_temperature_c_low"][0]) < float(data["peak_temperature_c_high"][0]):
            sys.exit("the band is empty")
        print(f"{len(head)} columns of {len(rows)} runs are the same in both files")
    return 0


if __name__ == "__main__":
    sys.exit(main())
