#!/usr/bin/env python3
"""Ten times the readings may take eleven times the instructions at most, in every command that reads or writes them. Counted by
valgrind, not by the clock: the same on a busy machine.

Usage: complexity_tests.py PROGRAM WORK [test names]. Ends with 77 where valgrind is missing.
"""

import os
import pathlib
import re
import shutil
import subprocess
import sys
import unittest

program, work = (pathlib.Path(one).resolve() for one in sys.argv[1:3])
none, few, many = 40, 400, 4000  # chosen: the largest takes valgrind seconds
most = 11.0 * (many - none) / (few - none) / 10  # of what the readings add to a start


class Growth(unittest.TestCase):
    def setUp(self):
        self.folder = work / self.id().split(".")[-1]
        shutil.rmtree(self.folder, ignore_errors=True)
        self.folder.mkdir(parents=True)
        self.addCleanup(shutil.rmtree, self.folder, ignore_errors=True)

    def run_it(self, *words, count=False):
        """Instructions when counted."""
        tool = ["valgrind", "--tool=cachegrind", "--cache-sim=no", "--cachegrind-out-file=/dev/null"] if count else []
        done = subprocess.run([*tool, program, *words], cwd=self.folder, capture_output=True, text=True, timeout=500,
                              env={**os.environ, "TZ": "UTC", "STILLHEAP_BY": "ab"})
        self.assertEqual(done.returncode, 0, done.stdout + done.stderr)
        return int(re.search(r"I\s+refs:\s+([\d,]+)", done.stderr)[1].replace(",", "")) if count else 0

    def yard(self, name, rows):
        self.run_it("init", name)
        self.run_it("record", "vessel", name, "--name", "n", "--design", "ring")
        self.run_it("record", "fill", name, "--vessel", "n", "--batch", "b", "--at", "2025-03-02T09:00")
        lines = ["time,T1,T2,T3,T4"]
        for number in range(max(1, rows // 4)):
            day, minute = number // 96, number % 96 * 15
            lines.append(f"2025-{3 + day // 28:02d}-{day % 28 + 1:02d} {minute // 60:02d}:{minute % 60:02d},"
                         + ",".join(str(30 + (number * 7 + probe * 3) % 40) for probe in range(4)))
        # What was read before the filling is refused: the first day is left out.
        (self.folder / f"{name}.csv").write_text("\n".join([lines[0], *lines[1 + 2 * 96:]]) + "\n")
        probes = [part for n in range(1, 5) for part in ("--probe", f"T{n}=temperature,degC,place:p{n}")]
        return self.run_it("import", name, f"{name}.csv", "--source", "t", "--vessel", "n", "--time", "time", "--logger-zone", "UTC",
                           *probes, count=True)

    def test_every_command_grows_with_the_readings_and_no_faster(self):
        sizes = [4 * 2 * 96 + rows for rows in (none, few, many)]
        counts = {"import": [self.yard(f"y{rows}", rows) for rows in sizes]}
        for name, words in (("status", ("status", "{}", "--json")), ("today", ("today", "{}", "--json")),
                            ("export", ("export", "{}", "-o", "{}-out")),
                            ("batch record", ("export", "{}", "-o", "{}-batch", "--batch", "b")),
                            ("backup", ("export", "{}", "--backup", "{}.copy")), ("check", ("status", "{}", "--check"))):
            counts[name] = [self.run_it(*(word.format(f"y{rows}") for word in words), count=True) for rows in sizes]
        for name, (start, small, large) in counts.items():
            with self.subTest(command=name):
                growth = (large - start) / (small - start)
                print(f"  {name}: {start / 1e6:.1f}, {small / 1e6:.1f}, {large / 1e6:.1f} million instructions, x{growth:.2f}")
                self.assertLess(growth, most)


if __name__ == "__main__":
    if not shutil.which("valgrind"):
        print("skipped: valgrind is not there")
        sys.exit(77)
    unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
