#!/usr/bin/env python3
"""What a stranger may make the server hold in memory: each attack over raw sockets, the peak of the program measured.

Usage: memory_tests.py PROGRAM WORK [test names].
"""

import contextlib
import gzip
import json
import os
import pathlib
import re
import shutil
import socket
import ssl
import sys
import threading
import time
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
from security_tests import Attack, make_certificate  # noqa: E402

most_growth_kb = 24 * 1024  # chosen: 64 threads, their stacks and a head each; the attacks held gigabytes


class Memory(Attack):
    def setUp(self):
        super().setUp()
        self.write_passphrase()
        self.serve("--lan", "--passphrase-file", "passphrase")
        for _ in range(8):
            self.ask("GET", "/")
        self.forget_peak()  # the hash of the passphrase took 64 MB at the start

    def pour(self, head, more, most_bytes, seconds=20):
        """Sends a head and then bytes of `more` again and again; status and how many bytes went out."""
        sent, back, until = 0, b"", time.monotonic() + seconds
        with socket.create_connection(("127.0.0.1", self.port), 10) as line:
            line.sendall(head.encode())
            line.settimeout(0.5)
            with contextlib.suppress(OSError):
                while sent < most_bytes and time.monotonic() < until:
                    sent += line.send(more)
            with contextlib.suppress(OSError):
                while chunk := line.recv(65536):
                    back += chunk
        found = re.match(rb"HTTP/1\.1 (\d+)", back)
        return int(found[1]) if found else 0, sent

    def head(self, first, *lines):
        own = [f"Host: localhost:{self.port}", f"Origin: http://localhost:{self.port}", "Content-Type: application/json"]
        return "\r\n".join([first, *own, *lines]) + "\r\n"

    def bounded(self, what):
        grown = self.peak_kb() - self.before
        print(f"  {what}: peak grew by {grown} kB")
        self.assertLess(grown, most_growth_kb, what)
        self.assertEqual(self.ask("GET", "/")[0], 200, "it lives on")

    def test_bodies_that_never_end(self):
        megabytes = 64 << 20
        chunk = b"10000\r\n" + b"x" * 65536 + b"\r\n"
        for path in ("/api/session", "/api/entries", "/api/photos", "/nowhere", "/"):
            for lines, expected, more in (
                    (("Transfer-Encoding: chunked",), (411, 401), chunk),
                    (("Content-Length: 2", "Transfer-Encoding: chunked"), (400,), chunk),
                    (("Content-Length: 99999999999",), (413, 401, 404), b"x" * 65536),
                    (("Content-Length: 30000000",), (413, 401, 404), b"x" * 65536)):
                with self.subTest(path=path, lines=lines):
                    status, _ = self.pour(self.head(f"POST {path} HTTP/1.1", *lines) + "\r\n", more, megabytes, 4)
                    self.assertIn(status, expected)
        self.bounded("bodies")

    def test_compressed_bodies(self):
        bomb = gzip.compress(bytes(64 << 20))
        for path in ("/api/session", "/api/entries", "/nowhere"):
            for kind in ("gzip", "br", "deflate", "zstd", "x-gzip", "gzip, gzip"):
                with self.subTest(path=path, kind=kind):
                    status, _ = self.pour(self.head(f"POST {path} HTTP/1.1", f"Content-Encoding: {kind}",
                                                    f"Content-Length: {len(bomb)}") + "\r\n", bomb, len(bomb), 5)
                    self.assertEqual(status, 415)
        self.bounded("compressed bodies")

    def test_heads_that_never_end(self):
        for name, head, more, expected in (
                ("line", self.head("GET / HTTP/1.1") + "X: ", b"x" * 65536, 431),
                ("name", self.head("GET / HTTP/1.1"), b"x" * 65536, 431),
                ("count", self.head("GET / HTTP/1.1"), b"a: b\r\n" * 10000, 431),
                ("folds", self.head("GET / HTTP/1.1") + "X: 1\r\n", b" 1\r\n" * 10000, 431),
                ("address", "GET /", b"x" * 65536, 414),
                ("query", "GET /?", b"a&" * 32768, 414),
                ("method", "", b"G" * 65536, 414)):
            with self.subTest(name=name):
                status, sent = self.pour(head, more, 64 << 20, 5)
                self.assertEqual(status, expected)
                self.assertLess(sent, 16 << 20, "it was read on and on")
        self.bounded("heads")

    def test_ranges_of_an_asset(self):
        large = self.folder / "page/assets/large-0.js"
        large.write_bytes(b"/" * (1 << 20))
        self.server.terminate()
        self.server.wait(30)
        self.serve("--lan", "--passphrase-file", "passphrase")
        self.ask("GET", "/assets/large-0.js")
        self.forget_peak()
        for ranges in ("bytes=" + ",".join(["0-"] * 2000), "bytes=" + ",".join(f"{i}-" for i in range(1500)), "bytes=0-0,-1",
                       "bytes=5-2", "bytes=-", "bytes=99999999999999999999-", "bytes=0-99999999"):
            with self.subTest(ranges=ranges[:30]):
                status, back = self.ask("GET", "/assets/large-0.js", Range=ranges)
                self.assertEqual(status, 200, "the whole file, never several parts")
                self.assertNotIn("multipart", back[:2000])
        self.bounded("ranges")

    def test_all_at_once(self):
        """Every connection there may be, each holding as much as it can."""
        lines = []
        for number in range(300):
            with contextlib.suppress(OSError):
                line = socket.create_connection(("127.0.0.1", self.port), 5, (f"127.0.0.{2 + number % 20}", 0))
                line.settimeout(0.2)
                lines.append(line)
                line.send((self.head("GET / HTTP/1.1") + "X: ").encode() + b"x" * 15000)
        begun = time.monotonic()
        self.bounded("300 heads at once")
        self.assertLess(time.monotonic() - begun, 8.0, "an honest one waits for them")
        for line in lines:
            line.close()

    def test_silent_strangers_make_room(self):
        """More silent connections than threads, from many addresses: who has something to ask still gets in."""
        lines = []
        for number in range(120):
            with contextlib.suppress(OSError):
                lines.append(socket.create_connection(("127.0.0.1", self.port), 5, (f"127.0.0.{2 + number % 30}", 0)))
        time.sleep(1.2)
        waits = []
        for _ in range(5):
            begun = time.monotonic()
            self.assertEqual(self.ask("GET", "/")[0], 200)
            waits.append(time.monotonic() - begun)
        self.assertLess(max(waits), 3.0, waits)
        for line in lines:
            line.close()

    def test_smuggled_requests_are_not_answered(self):
        inner = f"GET /api/session HTTP/1.1\r\nHost: localhost:{self.port}\r\n\r\n"
        for lines in (("Content-Length: 4", f"Content-Length: {4 + len(inner)}"), ("Content-Length: 0", "Transfer-Encoding: chunked"),
                      ("Transfer-Encoding: xchunked",), ("Transfer-Encoding: chunked, identity",), ("Content-Length: 0x4",),
                      ("Content-Length : 4",), ("Transfer-Encoding:\tchunked",)):
            with self.subTest(lines=lines):
                _, back = self.raw(self.head("POST /api/session HTTP/1.1", *lines) + "\r\n" + inner)
                self.assertEqual(len(re.findall(r"HTTP/1\.1 \d", back)), 1, "what was no request of its own was answered")

    def test_unknown_paths_tell_a_stranger_nothing(self):
        for path in ("/api/nothing", "/nowhere", "/api/fills/x", "/site.records.sqlite"):
            for method in ("GET", "POST", "DELETE", "PUT", "BREW"):
                with self.subTest(path=path, method=method):
                    self.assertEqual(self.ask(method, path)[0], 401)

    def test_many_guesses_at_once_are_counted(self):
        statuses = []

        def guess(number):
            statuses.append(self.ask("POST", "/api/session", f'{{"passphrase": "a wrong guess, number {number}"}}')[0])

        guesses = [threading.Thread(target=guess, args=(number,)) for number in range(24)]
        for one in guesses:
            one.start()
        for one in guesses:
            one.join()
        self.assertEqual(statuses.count(401), 5, statuses)
        self.assertEqual(statuses.count(429), 19, statuses)


class Answers(Attack):
    """What an honest question about much makes the server hold: a small computer in a shed has a gigabyte."""

    rows = 40000  # of a logger; before answers went out piece by piece the batch record held 370 MB for them

    def setUp(self):
        super().setUp()
        lines = ["time,T1"]
        for n in range(self.rows):
            day, second = n // 1440, n % 1440 * 60
            lines.append(f"2025-03-{day + 3:02d} {second // 3600:02d}:{second // 60 % 60:02d},{40 + n % 30}")
        (self.folder / "log.csv").write_text("\n".join(lines) + "\n")
        by = ("--by", "ab")
        self.run_it("record", "vessel", "yard", "--name", "n", "--design", "ring", *by)
        self.run_it("record", "fill", "yard", "--vessel", "n", "--batch", "b", "--at", "2025-03-02T09:00", *by)
        self.run_it("import", "yard", "log.csv", "--source", "t", "--vessel", "n", *by, "--time", "time", "--logger-zone",
                    "UTC", "--probe", "T1=temperature,degC,place:core")
        self.serve("--no-backup")

    def test_large_answers_are_not_held_in_memory(self):
        fill = json.loads(self.ask("GET", "/api/yard")[1].split("\r\n\r\n", 1)[1])["vessels"][0]["fill"]["thing"]
        self.ask("GET", f"/api/fills/{fill}/state")
        for path, least, most_kb in (("/api/export", 10 << 20, 16 << 10), (f"/api/fills/{fill}/batch", 10 << 20, 16 << 10),
                                     (f"/api/fills/{fill}/readings", 1 << 16, 24 << 10),
                                     (f"/api/fills/{fill}/batch.pdf", 1 << 13, 96 << 10)):
            with self.subTest(path=path):
                self.forget_peak()
                status, back = self.ask("GET", path)
                self.assertEqual(status, 200)
                self.assertGreater(len(back), least)
                grown = self.peak_kb() - self.before
                print(f"  {path}: {len(back)} bytes, peak grew by {grown} kB")
                self.assertLess(grown, most_kb)


class Neighbours(Attack):
    def test_other_users_of_the_machine_are_turned_away(self):
        if os.geteuid() != 0:
            self.skipTest("only root can be another user")
        self.serve()
        self.assertEqual(self.ask("GET", "/api/yard")[0], 200)
        for kind, address in ((socket.AF_INET, "127.0.0.1"), (socket.AF_INET6, "::ffff:127.0.0.1")):
            with self.subTest(address=address):
                self.assertEqual(self.as_nobody(kind, address), b"HTTP/1.1 403")

    def as_nobody(self, kind, address):
        inside, outside = os.pipe()
        child = os.fork()
        if child == 0:
            said = b"?"
            with contextlib.suppress(OSError):
                os.setuid(65534)
                with socket.socket(kind) as line:
                    line.settimeout(10)
                    line.connect((address, self.port))
                    line.sendall(f"GET /api/yard HTTP/1.1\r\nHost: localhost:{self.port}\r\n\r\n".encode())
                    said = line.recv(12)
            os.write(outside, said)
            os._exit(0)
        os.close(outside)
        os.waitpid(child, 0)
        said = os.read(inside, 100)
        os.close(inside)
        return said


class Elsewhere(Attack):
    def test_pages_of_others_may_not_even_ask(self):
        self.serve()
        for more in ({"Sec_Fetch_Site": "cross-site"}, {"Sec_Fetch_Site": "same-site"},
                     {"Origin": "http://elsewhere.example"}, {"Origin": "null"},
                     {"Sec_Fetch_Site": "cross-site", "Sec_Fetch_Mode": "navigate"}):
            for path in ("/api/export", "/api/today", "/api/yard", "/api/calendar.ics"):
                with self.subTest(more=more, path=path):
                    self.assertEqual(self.ask("GET", path, **more)[0], 403)
        for more in ({"Sec_Fetch_Site": "same-origin"}, {"Sec_Fetch_Site": "none"}, {}):
            self.assertEqual(self.ask("GET", "/api/yard", **more)[0], 200)
        link = {"Sec_Fetch_Site": "cross-site", "Sec_Fetch_Mode": "navigate"}
        self.assertEqual(self.ask("GET", "/", **link)[0], 200, "a link to the page")


class Transport(Attack):
    def setUp(self):
        super().setUp()
        if not shutil.which("openssl"):
            self.skipTest("openssl is not here")
        make_certificate(self.folder)
        self.write_passphrase()
        (self.folder / "key.pem").chmod(0o600)
        self.options = ["--lan", "--passphrase-file", "passphrase", "--certificate", "certificate.pem", "--key", "key.pem"]

    def shake(self, change):
        """Name of the suite agreed on, or None."""
        context = ssl.create_default_context()
        context.check_hostname, context.verify_mode = False, ssl.CERT_NONE
        change(context)
        try:
            with socket.create_connection(("127.0.0.1", self.port), 10) as line, context.wrap_socket(line) as safe:
                return safe.cipher()[0]
        except OSError:
            return None

    def test_only_strong_suites_are_agreed_on(self):
        self.serve(*self.options)

        def old(suites):
            def change(context):
                context.maximum_version = ssl.TLSVersion.TLSv1_2
                context.set_ciphers(suites + ":@SECLEVEL=0")
            return change

        def older(context):
            context.minimum_version = context.maximum_version = ssl.TLSVersion.TLSv1_1
            context.set_ciphers("ALL:@SECLEVEL=0")

        self.assertIsNotNone(self.shake(lambda context: None))
        self.assertIn("GCM", self.shake(old("ECDHE+AESGCM")))
        for suites in ("AES128-SHA", "AES256-SHA256", "AES128-GCM-SHA256", "ECDHE-RSA-AES128-SHA", "ECDHE-RSA-AES256-SHA384"):
            self.assertIsNone(self.shake(old(suites)), suites)
        self.assertIsNone(self.shake(older))

    def test_a_key_that_others_may_read_is_refused(self):
        (self.folder / "key.pem").chmod(0o644)
        said = self.run_it("serve", "yard", "--page", "page", *self.options, expected=2)
        self.assertIn("chmod 600", said)


if __name__ == "__main__":
    os.environ["TZ"] = "UTC"
    unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
