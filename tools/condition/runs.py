"""Runs of the records and their files."""
import csv
import io
import subprocess
import tempfile

import numpy as np

from inputs import HERE, RECORDS


def answers(program, file, points):
    """Runs one record at the points, one row of deviates a run. Returns the names and the values of its answers."""
    with tempfile.NamedTemporaryFile("w", suffix=".csv") as sheet:
        np.savetxt(sheet, points, delimiter=",", fmt="%.5f")
        sheet.flush()
        text = subprocess.run([program, RECORDS / (file + ".toml"), sheet.name], check=True, capture_output=True,
                              text=True).stdout
    rows = list(csv.reader(io.StringIO(text)))
    return rows[0][1:], np.array([[float(value) for value in row[1:]] for row in rows[1:]])


def save(id, names, points, answered):
    with open(HERE / "runs" / (id + ".csv"), "w", newline="") as out:
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(names + ["=" + key for key in answered[0]])
        for point, row in zip(points, answered[1]):
            writer.writerow(["%.5f" % z for z in point] + ["%.6g" % value for value in row])


def load(id):
    """Points (columns by name) and answers (by key) of a record."""
    with open(HERE / "runs" / (id + ".csv"), newline="") as text:
        rows = list(csv.reader(text))
    values = np.array([[float(value) for value in row] for row in rows[1:]])
    points = {name: values[:, i] for i, name in enumerate(rows[0]) if not name.startswith("=")}
    return points, {name[1:]: values[:, i] for i, name in enumerate(rows[0]) if name.startswith("=")}
