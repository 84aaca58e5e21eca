#!/usr/bin/env python3
"""The program on bad days: disk full, folder read-only, power cut, clock jump, bad page, killed. docs/reliability.md has
the table of faults and outcomes; each row names the test here.

Usage: fault_tests.py PROGRAM SHIM WORK [test names]. SHIM is shim.c, put before the C library.
"""

import contextlib
import filecmp
import json
import os
import pathlib
import random
import re
import shutil
import signal
import sqlite3
import subprocess
import sys
import time
import unittest
import urllib.error
import urllib.request
import uuid

program, shim, work = (pathlib.Path(one).resolve() for one in sys.argv[1:4])
short = ["--grid", "draft", "--days", "12", "--members", "2"]


class Day(unittest.TestCase):
    """A folder with a yard: one vessel, one fill, three readings."""

    def setUp(self):
        self.folder = work / self.id().split(".")[-1]
        shutil.rmtree(self.folder, ignore_errors=True)
        self.folder.mkdir(parents=True)
        self.good("init", "yard")
        self.good("record", "vessel", "yard", "--name", "n", "--by", "ab")
        self.good("record", "fill", "yard", "--vessel", "n", "--batch", "1", "--at", "2025-03-02T09:00", "--by", "ab")
        for day in range(3, 6):
            self.good(*self.reading(f"2025-03-0{day}T09:00", f"{40 + day} degC"))

    def tearDown(self):
        if all(error is None for _, error in getattr(self._outcome, "errors", [])):
            shutil.rmtree(self.folder, ignore_errors=True)

    def reading(self, at, value, yard="yard"):
        time_of_it = ["--at", at] if at else []
        return ["record", "reading", yard, "--vessel", "n", "--temperature", value, "--place", "core", "--by", "ab",
                *time_of_it]

    def run_it(self, *words, **fault):
        """Exit code and all that was said. `fault`: settings of the shim without FAULT_."""
        done = subprocess.run([program, *words], cwd=self.folder, env=self.env_of(fault), capture_output=True, text=True,
                              timeout=300)
        return done.returncode, done.stdout + done.stderr

    def env_of(self, fault):
        env = {**os.environ, "TZ": "UTC"}
        if fault:
            env.update({"FAULT_" + name.upper(): str(value) for name, value in fault.items()})
            env.setdefault("FAULT_BELOW", str(self.folder))
            env["LD_PRELOAD"] = str(shim)
            env["ASAN_OPTIONS"] = "verify_asan_link_order=0"
        return env

    def good(self, *words, **fault):
        code, said = self.run_it(*words, **fault)
        self.assertEqual(code, 0, said)
        return said

    def writes_of(self, *words):
        """How many writes a command makes; it is run on a copy of the folder's yard."""
        with self.on_copy():
            self.good(*words, count=self.folder.parent / "count", mode="none")
        return int((self.folder.parent / "count").read_text())

    @contextlib.contextmanager
    def on_copy(self):
        """Everything done inside is undone."""
        kept = self.folder.with_name(self.folder.name + "-kept")
        shutil.rmtree(kept, ignore_errors=True)
        shutil.copytree(self.folder, kept)
        try:
            yield
        finally:
            shutil.rmtree(self.folder)
            kept.rename(self.folder)

    def values(self, store=None):
        with contextlib.closing(sqlite3.connect(store or self.folder / "yard/site.records.sqlite")) as base:
            self.assertEqual(base.execute("pragma integrity_check").fetchone()[0], "ok")
            return sorted(row[0] for row in base.execute("select value from readings"))

    def helps(self, said, *words):
        """The message names what and how to mend."""
        self.assertTrue(any(word in said for word in words), said)
        self.assertIn(";", said)


class DiskFull(Day):
    def test_full_disk_while_noting(self):
        note = [*self.reading("2025-03-07T09:00", "60 degC"), "--id", str(uuid.uuid4())]
        writes = self.writes_of(*note)
        self.assertGreater(writes, 3)
        refused = 0
        for after in range(1, writes + 1):
            with self.subTest(after=after), self.on_copy():
                code, said = self.run_it(*note, mode="full", after=after)
                if code != 0:
                    refused += 1
                    self.assertEqual(code, 1, said)
                    self.helps(said, "disk is full", "room")
                    self.assertEqual(self.values(), [43.0, 44.0, 45.0], "lost or half stored")
                self.good(*note)  # room was made: the same is sent again
                self.assertEqual(self.values(), [43.0, 44.0, 45.0, 60.0])
        self.assertGreater(refused, 2, "the disk was never full where it matters")

    def test_full_disk_while_planning(self):
        plan = ["plan", "yard", "-o", "out", *short]
        writes = self.writes_of(*plan)
        for after in (1, writes // 2, writes):
            with self.subTest(after=after), self.on_copy():
                code, said = self.run_it(*plan, mode="full", after=after)
                self.assertEqual(code, 1, said)
                self.helps(said, "room")
                self.assertEqual([one.name for one in self.folder.iterdir()], ["yard"], "something was left")
        self.good(*plan)
        self.assertTrue((self.folder / "out/pack.pdf").stat().st_size > 1000)

    def test_full_disk_keeps_the_plan_that_is_there(self):
        (self.folder / "out").mkdir()
        (self.folder / "out/plan.json").write_text("the old one")
        code, said = self.run_it("plan", "yard", "-o", "out", "--force", *short, mode="full", after=3)
        self.assertEqual(code, 1, said)
        self.assertEqual((self.folder / "out/plan.json").read_text(), "the old one")
        self.assertEqual(len(list((self.folder / "out").iterdir())), 1)

    def test_full_disk_while_exporting(self):
        export = ["export", "yard", "-o", "out", "--backup", "copy.sqlite"]
        writes = self.writes_of(*export)
        for after in sorted({1, 2, writes // 2, writes - 1, writes}):
            with self.subTest(after=after), self.on_copy():
                code, said = self.run_it(*export, mode="full", after=after)
                if code == 0:
                    continue
                self.helps(said, "room")
                self.assertFalse((self.folder / "out").exists())
                if (self.folder / "copy.sqlite").exists():
                    self.assertEqual(self.values(self.folder / "copy.sqlite"), self.values(), "half a backup")

    def test_full_disk_at_the_start(self):
        code, said = self.run_it("init", "new", mode="full", after=1)
        self.assertEqual(code, 1, said)
        self.helps(said, "room")
        self.assertFalse((self.folder / "new").exists(), "half a site file would stand in the way")


class ReadOnly(Day):
    def test_read_only_folder(self):
        before = sorted(self.folder.rglob("*"))
        for words in (self.reading("2025-03-07T09:00", "60 degC"), ["plan", "yard", "-o", "out", *short],
                      ["export", "yard", "-o", "out"], ["init", "new"], ["forecast", "yard", "-o", "out", *short]):
            with self.subTest(command=words[0]):
                code, said = self.run_it(*words, mode="readonly")
                self.assertEqual(code, 1, said)
                self.helps(said, "written", "made")
        self.assertEqual(sorted(self.folder.rglob("*")), before)
        self.good("check", "yard", mode="readonly")  # reading alone needs no writing
        self.assertEqual(self.values(), [43.0, 44.0, 45.0])


class Sweeps(Day):
    """A study of four short drafts, its results beside."""
    results = ("runs.csv", "runs.nc", "summary.txt", "tradeoffs.pdf", "tradeoffs.png", "tradeoffs.svg")

    def setUp(self):
        super().setUp()
        (self.folder / "study.toml").write_text(
            'site = "yard"\n[vary."blend.soaked_moisture"]\nfrom = "60 %"\nto = "69 %"\nsteps = 4\n'
            '[set]\n"forecast.grid" = "draft"\n"forecast.members" = 1\n"forecast.days" = 5\n')
        self.good(*self.sweep("right"))

    def sweep(self, out, workers=1):
        return ["sweep", "study.toml", "-o", out, "--workers", str(workers)]

    def finished(self, out="out"):
        """Names of the finished cases, each whole, with when it was finished."""
        cases = {one.name: one.stat().st_mtime_ns for one in (self.folder / out / "cases").glob("[0-9]*")}
        for name in cases:
            self.assertEqual(self.numbers(out, name), self.numbers("right", name), "another case")
        return cases

    def numbers(self, out, name):
        case = json.loads((self.folder / out / "cases" / name).read_text())
        return {key: value for key, value in case.items() if key not in ("by", "cpu_s", "peak_memory_kb")}

    def goes_on(self, kept):
        """The same command, with room again: nothing is done twice, and the results are those of a run without a stop."""
        self.good(*self.sweep("out"))
        after = self.finished()
        self.assertEqual(len(after), 4)
        self.assertEqual({name: after[name] for name in kept}, kept, "a finished case was run again")
        for name in self.results:
            self.assertTrue(filecmp.cmp(self.folder / "out" / name, self.folder / "right" / name, shallow=False), name)
        left = [one for one in (self.folder / "out").rglob(".*")]
        self.assertEqual(left, [], "something was left aside")

    def test_full_disk_while_sweeping(self):
        for workers, after in [(1, 1), *((1, one) for one in range(2, 10)), (2, 3), (2, 4)]:
            with self.subTest(workers=workers, after=after), self.on_copy():
                code, said = self.run_it(*self.sweep("out", workers), mode="full", after=after)
                self.assertEqual(code, 1, said)
                self.helps(said, "room")
                self.goes_on(self.finished())

    def test_full_disk_while_the_results_of_a_sweep_are_written(self):
        shutil.copytree(self.folder / "right", self.folder / "out")
        for name in self.results:
            (self.folder / "out" / name).unlink()
        writes = self.writes_of(*self.sweep("out"))
        self.assertGreater(writes, 4)  # the page goes past the shim
        for after in range(1, writes + 1):
            with self.subTest(after=after), self.on_copy():
                kept = self.finished()
                code, said = self.run_it(*self.sweep("out"), mode="full", after=after)
                self.assertEqual(code, 1, said)
                self.helps(said, "room")
                for name in self.results:
                    file = self.folder / "out" / name
                    self.assertTrue(not file.exists() or filecmp.cmp(file, self.folder / "right" / name, shallow=False),
                                    f"half of {name}")
                self.goes_on(kept)

    def test_read_only_folder_of_a_sweep(self):
        for out in ("new", "right"):
            with self.subTest(out=out):
                before = sorted(self.folder.rglob("*"))
                code, said = self.run_it(*self.sweep(out), mode="readonly")
                self.assertEqual(code, 1, said)
                self.helps(said, "written")
                self.assertEqual(sorted(self.folder.rglob("*")), before)
        self.finished("right")


class Disk:
    """What a disk holds after a power cut: changes of names in order, bytes as far as they were synced, and of the
    others none, all, or any of them."""

    def __init__(self, folder, kept):
        self.synced = {}
        for one in folder.rglob("*"):
            if one.is_file():
                self.synced[str(one)] = one.read_bytes()
        self.kept, self.pending = kept, {}

    def apply(self, path, change):
        data = bytearray(self.synced.get(path, b""))
        what, place, bytes_ = change
        if what == "W":
            data.extend(b"\0" * (place + len(bytes_) - len(data)))
            data[place: place + len(bytes_)] = bytes_
        elif what == "T":
            data = data[:place].ljust(place, b"\0")
        else:
            data = bytearray()
        self.synced[path] = bytes(data)

    def do(self, what, place, path, bytes_):
        if what == "S":
            for change in self.pending.pop(path, []):
                self.apply(path, change)
        elif what == "R":
            old, new = path.split("\t")
            if old in self.synced:
                self.synced[new] = self.synced.pop(old)
                self.pending[new] = self.pending.pop(old, [])
        elif what == "U":
            self.synced.pop(path, None)
            self.pending.pop(path, None)
        elif what == "C":
            self.synced.setdefault(path, b"")
        elif what in "WTE":
            self.synced.setdefault(path, b"")
            self.pending.setdefault(path, []).append((what, place, bytes_))

    def cut(self):
        for path, changes in self.pending.items():
            for change in changes:
                if self.kept():
                    self.apply(path, change)
        return {path: data for path, data in self.synced.items() if not path.endswith("-shm")}


def read_log(file):
    data, at, log = file.read_bytes(), 0, []
    while at < len(data):
        end = data.index(b"\n", at)
        what, place, length, path = data[at:end].decode().split(" ", 3)
        at = end + 1 + int(length)
        log.append((what, int(place), path, data[end + 1: at]))
    return log


class PowerCut(Day):
    def cuts(self, words, check, most=60, about=""):
        """Runs a command, then looks at the folder after a cut behind each of its steps. `check(said_it)` is told
        whether the command had said that it was done. `about`: only steps that touch a file of this name."""
        before = self.folder.with_name(self.folder.name + "-before")
        shutil.rmtree(before, ignore_errors=True)
        shutil.copytree(self.folder, before)
        log_file = self.folder.parent / (self.folder.name + ".log")
        log_file.unlink(missing_ok=True)
        self.good(*words, mode="log", log=log_file)
        log = read_log(log_file)
        self.assertTrue(any(one[0] == "S" for one in log), "nothing was ever synced")
        choice = random.Random(7)
        steps = range(len(log) + 1)
        if about:
            steps = [at + 1 for at, one in enumerate(log) if about in one[2]][:most]
        elif len(log) > most:
            steps = sorted({*choice.sample(range(len(log)), most - 10), *range(len(log) - 9, len(log) + 1)})
        for step in steps:
            for name, kept in (("none", lambda: False), ("all", lambda: True), ("any", lambda: choice.random() < 0.5)):
                shutil.rmtree(self.folder)
                shutil.copytree(before, self.folder)
                disk = Disk(self.folder, kept)
                for what, place, path, bytes_ in log[:step]:
                    if what != "A":
                        disk.do(what, place, path, bytes_)
                shutil.rmtree(self.folder)
                self.folder.mkdir()
                for path, data in disk.cut().items():
                    pathlib.Path(path).parent.mkdir(parents=True, exist_ok=True)
                    pathlib.Path(path).write_bytes(data)
                with self.subTest(step=step, of=len(log), unsynced=name):
                    check(any(one[0] == "A" for one in log[:step]))
        shutil.rmtree(before)
        log_file.unlink()

    def test_power_cut_while_noting(self):
        note = [*self.reading("2025-03-07T09:00", "60 degC"), "--id", str(uuid.uuid4())]

        def check(said_it):
            self.good("status", "yard", "--check")
            if said_it:
                self.assertEqual(self.values(), [43.0, 44.0, 45.0, 60.0], "acknowledged and lost")
            self.good(*note)
            self.assertEqual(self.values(), [43.0, 44.0, 45.0, 60.0])

        self.cuts(note, check)

    def test_power_cut_while_the_store_is_made(self):
        for one in self.folder.glob("yard/site.records*"):
            one.unlink()
        note = ["record", "vessel", "yard", "--name", "m", "--by", "ab", "--id", str(uuid.uuid4())]

        def check(said_it):
            if said_it:
                self.assertIn("m", self.good("status", "yard"))
            self.good(*note)
            self.good("status", "yard", "--check")

        self.cuts(note, check)

    def test_power_cut_while_a_checkpoint_is_replaced(self):
        run = ["forecast", "yard", "-o", "out", *short]
        checked = set()

        def check(_):
            kept = self.folder / "out/resume.cbor"
            if not kept.exists() or hash(kept.read_bytes()) in checked:
                return
            checked.add(hash(kept.read_bytes()))
            self.good(*run, "--resume")

        self.cuts_of_checkpoint(run, check)
        self.assertGreater(len(checked), 1, "no checkpoint was ever there: nothing was proved")

    def cuts_of_checkpoint(self, run, check):
        # The steady clock runs so fast that each step is followed by a checkpoint.
        good = self.good
        self.good = lambda *words, **fault: good(*words, **({**fault, "haste": 100000} if fault else {}))
        self.cuts(run, check, most=40, about="resume.cbor")


class Killed(Day):
    def test_killed_forecast_goes_on(self):
        run = ["forecast", "yard", "-o", "out", *short]
        self.good("forecast", "yard", "-o", "whole", *short)
        code, said = self.run_it(*run, mode="kill", after=4, haste=100000)
        self.assertEqual(code, -signal.SIGKILL, said)
        self.assertTrue((self.folder / "out/resume.cbor").exists(), "it was killed before it kept anything")
        self.good(*run, "--resume")
        for name in ("forecast.json", "forecast/north/history.csv", "forecast/ring/history.csv"):
            if (self.folder / "whole" / name).exists():
                self.assertTrue(filecmp.cmp(self.folder / "whole" / name, self.folder / "out" / name, shallow=False), name)
        self.assertEqual(sorted(one.name for one in (self.folder / "out").iterdir()),
                         sorted(one.name for one in (self.folder / "whole").iterdir()), "left over from the killed run")

    def test_killed_plan_leaves_nothing_in_the_way(self):
        plan = ["plan", "yard", "-o", "out", *short]
        code, _ = self.run_it(*plan, mode="kill", after=5)
        self.assertEqual(code, -signal.SIGKILL)
        self.assertFalse((self.folder / "out/plan.json").exists())
        self.good(*plan)
        self.assertEqual([one.name for one in self.folder.iterdir() if "unfinished" in one.name], [])

    def serve(self, **fault):
        page = self.folder / "page"
        page.mkdir(exist_ok=True)
        (page / "index.html").write_text("<!doctype html>")
        server = subprocess.Popen([program, "serve", "yard", "--port", "0", "--page", "page"], cwd=self.folder,
                                  stdout=subprocess.PIPE, text=True, env=self.env_of(fault))
        self.addCleanup(server.stdout.close)
        port = re.search(r"localhost:(\d+)", server.stdout.readline())[1]
        return server, f"http://localhost:{port}"

    def stop(self, server):
        server.send_signal(signal.SIGTERM)
        self.assertEqual(server.wait(timeout=20), 0)

    def entry(self, fill, **more):
        """A reading as the page sends it; `more` stands instead."""
        return {"kind_of_entry": "reading", "id": str(uuid.uuid4()), "fill": fill, "measure": "temperature",
                "place": "core", "at_s": 1741424400, "value": 50.0, "by": "ab"} | more

    def test_killed_server_keeps_what_it_took(self):
        server, at = self.serve()
        fill = json.load(urllib.request.urlopen(at + "/api/yard"))["vessels"][0]["fill"]["id"]
        sent = []
        for number in range(20):
            entry = self.entry(fill, at_s=1741424400 + 60 * number, value=50.0 + number)
            sent.append(entry)
            if number < 15:
                self.assertEqual(self.send(at, [entry]), ["stored"])
        server.kill()
        server.wait()
        server, at = self.serve()
        self.assertEqual(self.send(at, sent), ["known"] * 15 + ["stored"] * 5)
        self.stop(server)
        self.assertEqual(len(self.values()), 23)

    def send(self, at, entries):
        request = urllib.request.Request(at + "/api/entries", json.dumps({"entries": entries}).encode(),
                                         {"Content-Type": "application/json", "Origin": at})
        return [one["outcome"] for one in json.load(urllib.request.urlopen(request))["results"]]

    def test_read_only_folder_is_shown_and_takes_nothing(self):
        server, at = self.serve(mode="readonly")
        fill = json.load(urllib.request.urlopen(at + "/api/yard"))["vessels"][0]["fill"]["id"]
        for path in ("/api/today", f"/api/fills/{fill}/state", f"/api/fills/{fill}/readings", "/api/export", "/api/store"):
            self.assertEqual(urllib.request.urlopen(at + path).status, 200, path)
        with self.assertRaises(urllib.error.HTTPError) as told:
            self.send(at, [self.entry(fill)])
        self.assertIn("nothing was stored", told.exception.read().decode())
        self.stop(server)
        self.assertEqual(self.values(), [43.0, 44.0, 45.0])

    def test_store_lost_under_a_server_is_told_and_restored(self):
        """Deleted, moved away, another one in its place: nothing is said to be stored then, and restore puts a copy back."""
        store = self.folder / "yard/site.records.sqlite"
        self.good("export", "yard", "--backup", "copy.sqlite")
        for lose in (store.unlink, lambda: store.rename(store.with_name("away")), lambda: os.replace(self.folder / "other", store)):
            with self.subTest(lose=lose), self.on_copy():
                shutil.copy(self.folder / "copy.sqlite", self.folder / "other")
                server, at = self.serve()
                fill = json.load(urllib.request.urlopen(at + "/api/yard"))["vessels"][0]["fill"]["id"]
                lose()
                with self.assertRaises(urllib.error.HTTPError) as told:
                    self.send(at, [self.entry(fill)])
                self.assertEqual(told.exception.code, 500)
                self.assertIn("nothing was stored", told.exception.read().decode())
                self.stop(server)
                self.good("restore", "yard", "--from", "copy.sqlite")
                self.assertEqual(self.values(), [43.0, 44.0, 45.0])

    def test_store_missing_beside_its_log_is_not_made_anew(self):
        server, at = self.serve()
        server.kill()  # its log stays
        server.wait()
        store = self.folder / "yard/site.records.sqlite"
        log = store.with_name(store.name + "-wal")
        self.assertTrue(log.exists(), "no log was left: nothing is tested")
        left = log.read_bytes() or b"what is left"
        log.write_bytes(left)
        for make in (store.unlink, lambda: store.write_bytes(b"")):
            make()
            for words in (self.reading("2025-03-07T09:00", "60 degC"), ["status", "yard"], ["serve", "yard", "--page", "page"]):
                code, said = self.run_it(*words)
                self.assertEqual(code, 2, said)
                self.helps(said, "stillheap restore")
            self.assertEqual(log.read_bytes(), left, "the log was touched")

    def test_signal_at_any_moment_of_the_start_ends_it(self):
        for wait_ms in range(0, 120, 6):
            server = subprocess.Popen([program, "serve", "yard", "--port", "0", "--page", "page"], cwd=self.folder,
                                      stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
            (self.folder / "page").mkdir(exist_ok=True)
            (self.folder / "page/index.html").write_text("<!doctype html>")
            time.sleep(wait_ms / 1000)
            server.send_signal(signal.SIGTERM)
            self.assertIn(server.wait(timeout=20), (0, 2, -signal.SIGTERM), wait_ms)

    def test_parallel_backups_to_one_name(self):
        copies = [subprocess.Popen([program, "export", "yard", "--backup", "copy.sqlite"], cwd=self.folder,
                                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) for _ in range(8)]
        codes = sorted(one.wait(timeout=60) for one in copies)
        self.assertEqual(codes, [0] + [2] * 7)
        self.assertEqual(self.values(self.folder / "copy.sqlite"), [43.0, 44.0, 45.0])
        self.assertEqual([one.name for one in self.folder.iterdir() if ".part" in one.name], [])

    def begin_as_we_do(self, base):
        """The program looks again every 25 ms, not ever less often as SQLite by itself does."""
        while True:
            try:
                return base.execute("begin immediate")
            except sqlite3.OperationalError:
                time.sleep(0.025)

    def test_long_import_lets_others_note(self):
        """40,000 rows go in while another notes: whoever notes waits less than a second for the store."""
        rows = ["time,T1"]
        for number in range(40000):
            day, second = 10 + number // 2880, number % 2880 * 30
            rows.append(f"2025-03-{day:02d} {second // 3600:02d}:{second // 60 % 60:02d}:{second % 60:02d},{40 + number % 30}")
        (self.folder / "log.csv").write_text("\n".join(rows) + "\n")
        long = subprocess.Popen([program, "import", "yard", "log.csv", "--source", "t", "--vessel", "n", "--by", "ab", "--time", "time",
                                 "--logger-zone", "UTC", "--probe", "T1=temperature,degC,place:core"], cwd=self.folder,
                                stdout=subprocess.DEVNULL, env={**os.environ, "TZ": "UTC"})
        base = sqlite3.connect(self.folder / "yard/site.records.sqlite", timeout=0, isolation_level=None)
        waits, meanwhile = [], False
        while long.poll() is None:
            begun = time.monotonic()
            self.begin_as_we_do(base)
            waits.append(time.monotonic() - begun)
            meanwhile = meanwhile or 3 < base.execute("select count(*) from readings").fetchone()[0] < 40000
            base.execute("rollback")
            time.sleep(0.05)
        base.close()
        self.assertEqual(long.returncode, 0)
        self.assertEqual(len(self.values()), 40003)
        self.assertTrue(meanwhile, "the import was over too soon: nothing was tested")
        self.assertLess(max(waits), 1.0)


class Clock(Day):
    def test_clock_before_the_filling_is_told(self):
        code, said = self.run_it(*self.reading(None, "60 degC"), clock=-20 * 365 * 86400)
        self.assertEqual(code, 2, said)
        self.helps(said, "set the clock")
        self.assertEqual(self.values(), [43.0, 44.0, 45.0])

    def test_clock_jump_loses_nothing(self):
        year = 365 * 86400
        self.good(*self.reading(None, "60 degC"), clock=5 * year)  # five years ahead
        self.good(*self.reading("2025-03-07T09:00", "61 degC"))  # put right
        self.good("status", "yard", "--check")
        self.good("today", "yard", clock=-20 * 365 * 86400)
        self.assertEqual(self.values(), [43.0, 44.0, 45.0, 60.0, 61.0])
        found = json.loads(self.good("export", "yard", "-o", "out", "--json"))
        self.assertTrue(found)
        rows = json.loads((self.folder / "out/records.json").read_text())["readings"]
        self.assertEqual([row["value_si"] if "value_si" in row else row["value"] for row in rows],
                         [43.0, 44.0, 45.0, 60.0, 61.0], "entries no longer stand in the order they were stored")


class BadPage(Day):
    def test_bad_page_is_told_and_the_backup_helps(self):
        self.good("export", "yard", "--backup", "copy.sqlite")
        self.good("export", "yard", "-o", "before")
        store = self.folder / "yard/site.records.sqlite"
        whole = store.read_bytes()
        told = 0
        for page in range(len(whole) // 4096):
            with self.subTest(page=page):
                store.write_bytes(whole[: page * 4096] + b"\xa5" * 4096 + whole[(page + 1) * 4096:])
                code, said = self.run_it("status", "yard", "--check")
                self.assertIn(code, (1, 2), "a bad page was not seen: " + said)
                self.helps(said, "backup", "move it away")
                told += 1
                for one in self.folder.glob("yard/site.records.sqlite-*"):
                    one.unlink()
        self.assertGreater(told, 10)
        shutil.copy(self.folder / "copy.sqlite", store)
        self.good("export", "yard", "-o", "after")
        self.assertTrue(filecmp.cmp(self.folder / "before/readings.csv", self.folder / "after/readings.csv", shallow=False))


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], *sys.argv[4:]])
