#!/usr/bin/env python3
"""A second list of attacks, written from outside: odd requests, odd entries, odd files, against the real program.

Usage: second_tests.py PROGRAM WORK [test names].
"""

import contextlib
import json
import os
import pathlib
import re
import socket
import subprocess
import sys
import threading
import time
import unittest
import uuid

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
from security_tests import Attack, passphrase, program  # noqa: E402


class Yard(Attack):
    """With a vessel and a fill."""

    def setUp(self):
        super().setUp()
        self.run_it("record", "vessel", "yard", "--name", "n", "--design", "ring", "--by", "ab")
        self.run_it("record", "fill", "yard", "--vessel", "n", "--batch", "b", "--at", "2025-03-02T09:00", "--by", "ab")

    def told(self, method, path, body="", **more):
        return json.loads(self.ask(method, path, body, **more)[1].split("\r\n\r\n", 1)[1])

    def begin(self, *options):
        self.serve("--no-backup", *options)
        self.fill = self.told("GET", "/api/yard")["vessels"][0]["fill"]["thing"]


class Heads(Yard):
    def test_odd_heads_are_refused_or_answered_and_nothing_hangs(self):
        self.begin()
        host = f"Host: localhost:{self.port}\r\n"
        post = f"POST /api/entries HTTP/1.1\r\n{host}Origin: http://localhost:{self.port}\r\nConnection: close\r\n"
        for name, text, wanted in (
                ("no host", "GET / HTTP/1.1\r\nConnection: close\r\n\r\n", {421}),
                ("two hosts", f"GET / HTTP/1.1\r\n{host}{host}\r\n", {400}),
                ("HTTP/2", "PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n", {400}), ("HTTP/0.9", "GET /\r\n", {400}),
                ("version", f"GET / HTTP/9.9\r\n{host}\r\n", {400}),
                ("whole address", f"GET http://localhost:{self.port}/ HTTP/1.1\r\n{host}\r\n", {400}),
                ("star", f"OPTIONS * HTTP/1.1\r\n{host}\r\n", {400}), ("tunnel", f"CONNECT a:1 HTTP/1.1\r\n{host}\r\n", {400}),
                ("zero byte", f"GET / HTTP/1.1\r\n{host}X: a\0b\r\n\r\n", {400}),
                ("bare return", f"GET / HTTP/1.1\r\n{host}X: a\rb\r\n\r\n", {400}),
                ("line feeds", f"GET / HTTP/1.1\n{host.strip()}\n\n", {400}), ("empty lines", "\r\n" * 5000, {400}),
                ("space before colon", f"GET / HTTP/1.1\r\n{host}X : a\r\n\r\n", {400}),
                ("no name", f"GET / HTTP/1.1\r\n{host}: a\r\n\r\n", {400}),
                ("tabs", f"GET\t/\tHTTP/1.1\r\n{host}\r\n", {400}),
                ("user in host", f"GET /api/yard HTTP/1.1\r\nHost: x@localhost\r\nConnection: close\r\n\r\n", {421}),
                ("two in one host", "GET / HTTP/1.1\r\nHost: localhost, elsewhere\r\nConnection: close\r\n\r\n", {421}),
                ("too large", post + "Content-Length: 18446744073709551616\r\n\r\n", {400}),
                ("largest", post + "Content-Length: 18446744073709551615\r\n\r\n", {413}),
                ("negative", post + "Content-Length: -5\r\n\r\n", {400}), ("plus", post + "Content-Length: +5\r\n\r\n12345", {400}),
                ("list", post + "Content-Length: 5, 5\r\n\r\n12345", {400}), ("hex", post + "Content-Length: 0x5\r\n\r\n12345", {400}),
                ("upgrade", f"GET / HTTP/1.1\r\n{host}Connection: Upgrade, close\r\nUpgrade: h2c\r\n\r\n", {200}),
                ("other method in a header",
                 f"GET /api/yard HTTP/1.1\r\n{host}X-HTTP-Method-Override: DELETE\r\nConnection: close\r\n\r\n", {200}),
                ("not asked for", post + "Expect: 100-continue\r\nContent-Length: 9999999\r\n\r\n", {413})):
            with self.subTest(name=name):
                begun = time.monotonic()
                status, back = self.raw(text.encode("latin-1"))
                self.assertIn(status, wanted)
                self.assertEqual(len(re.findall(r"HTTP/1\.1 \d", back)), 1)
                self.assertLess(time.monotonic() - begun, 4.0)

    def test_many_requests_in_one_write_are_answered_in_order(self):
        self.begin()
        host = f"Host: localhost:{self.port}\r\n"
        one = f"GET /api/session HTTP/1.1\r\n{host}\r\n"
        last = f"GET /nowhere HTTP/1.1\r\n{host}Connection: close\r\n\r\n"
        entries = (f"POST /api/entries HTTP/1.1\r\n{host}Origin: http://localhost:{self.port}\r\nContent-Type: application/json\r\n"
                   "Content-Length: 14\r\n\r\n" + '{"entries":[]}')
        statuses = re.findall(r"HTTP/1\.1 (\d+)", self.raw(one * 40 + entries + one + entries + last)[1])
        self.assertEqual(statuses, ["200"] * 43 + ["404"])
        statuses = re.findall(r"HTTP/1\.1 (\d+)", self.raw(one * 3 + "BAD\r\n\r\n" + one * 3)[1])
        self.assertEqual(statuses, ["200"] * 3 + ["400"], "nothing after what was no request")

    def test_who_never_reads_holds_up_nobody(self):
        self.begin()
        lines = []
        for _ in range(100):
            line = socket.create_connection(("127.0.0.1", self.port), 5)
            line.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 2048)
            line.settimeout(0.1)
            lines.append(line)
            with contextlib.suppress(OSError):
                line.sendall(f"GET / HTTP/1.1\r\nHost: localhost:{self.port}\r\n\r\n".encode() * 1000)
        begun = time.monotonic()
        self.assertEqual(self.ask("GET", "/api/yard")[0], 200)
        self.assertLess(time.monotonic() - begun, 8.0)
        for line in lines:
            line.close()


class Entries(Yard):
    def outcome(self, **entry):
        entry = {"kind_of_entry": "reading", "id": str(uuid.uuid4()), "fill": self.fill, "measure": "temperature",
                 "place": "core", "at_s": 1741000000, "value": 50.0, "by": "ab"} | entry
        return self.told("POST", "/api/entries", json.dumps({"entries": [entry]}))["results"][0]["outcome"]

    def test_numbers_times_and_names_that_cannot_be(self):
        self.begin()
        for number, more in enumerate((
                {"value": None}, {"value": "50"}, {"value": True}, {"value": 1e308}, {"value": -274}, {"at_s": 10**18}, {"at_s": -1},
                {"at_s": 1741000000.5}, {"at_s": 2**63}, {"at_s": int(time.time()) + 86400 * 400}, {"noted_at_s": 10**17},
                {"angle_rad": 1e300}, {"depth_m": -1}, {"zone": "../../etc/passwd"}, {"place": "x" * 100000}, {"by": "x" * 100000},
                {"id": "\0" * 36}, {"fill": [self.fill]}, {"corrects": self.fill, "reason": "x"}, {"colour": "brown"})):
            with self.subTest(more=str(more)[:60]):
                self.assertEqual(self.outcome(**({"at_s": 1741000000 + number} | more)), "refused")
        for name in ("", "   ", "a\0b", "a\r\nb", "x" * 100000, "\u202egnp.exe", "n\u200b"):
            with self.subTest(name=name[:20]):
                vessel = {"kind_of_entry": "vessel", "id": str(uuid.uuid4()), "name": name, "by": "ab", "design": "north"}
                told = self.told("POST", "/api/entries", json.dumps({"entries": [vessel]}))
                self.assertEqual(told["results"][0]["outcome"], "refused")
        self.assertEqual(len(self.told("GET", "/api/export")["readings"]), 0)

    def test_only_pictures_are_taken_as_photos(self):
        self.begin()
        ask = f"/api/photos?id={uuid.uuid4()}&by=ab&fill={self.fill}&taken_at=2025-03-05T08:00Z"
        for name, start in (("svg", "<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>"), ("gif", "GIF89a"), ("zip", "PK\x03\x04"),
                            ("html", "<!doctype html>"), ("pdf", "%PDF-1.7"), ("nothing", "")):
            with self.subTest(name=name):
                self.assertEqual(self.ask("POST", ask, start)[0], 422)
        self.assertEqual(list((self.folder / "yard").glob("site.photos/*")), [])

    def test_two_servers_on_one_store_lose_and_double_nothing(self):
        self.begin()
        other = Yard("setUp")
        other.folder, other.log = self.folder, self.log
        other.serve("--no-backup")
        self.addCleanup(other.server.wait)
        self.addCleanup(other.server.terminate)
        kept, guard = [], threading.Lock()

        def note(server, who):
            for number in range(30):
                entry = {"kind_of_entry": "reading", "id": str(uuid.uuid4()), "fill": self.fill, "measure": "temperature", "place": who,
                         "at_s": 1741000000 + 60 * number, "value": 40.0 + number, "by": "ab"}
                if server.told("POST", "/api/entries", json.dumps({"entries": [entry]}))["results"][0]["outcome"] == "stored":
                    with guard:
                        kept.append(entry["id"])

        writers = [threading.Thread(target=note, args=(server, f"{name} {n}"))
                   for name, server in (("a", self), ("b", other)) for n in range(3)]
        for one in writers:
            one.start()
        for one in writers:
            one.join()
        stored = [one["id"] for one in self.told("GET", "/api/export")["readings"]]
        self.assertEqual(len(kept), 180)
        self.assertEqual(sorted(stored), sorted(kept))


class Files(Yard):
    def import_it(self, data):
        (self.folder / "log.csv").write_bytes(data)
        done = subprocess.run([program, "import", "yard", "log.csv", "--source", "t", "--vessel", "n", "--by", "ab", "--time", "time",
                               "--logger-zone", "UTC", "--probe", "T1=temperature,degC,place:core"], cwd=self.folder,
                              capture_output=True, timeout=60)
        return done.returncode, done.stdout + done.stderr

    def test_odd_logger_files_are_refused_in_words_a_terminal_may_show(self):
        for name, data in (("binary", os.urandom(100000)), ("escape", b"time\x1b]0;gone\x07,T1\n"),
                           ("escape in a cell", b"time,T1\n2025-03-03 00:01,\x1b[2J\n"), ("empty", b""),
                           ("zero", b"time,T1\n2025-03-03 00:01,4\x000\n"),
                           ("UTF-16", "time,T1\n2025-03-03 00:06,40\n".encode("utf-16")),
                           ("one cell", b"time,T1\n2025-03-03 00:03," + b"4" * 5000000),
                           ("open quotes", b'time,T1\n"2025-03-03 00:04,40\n' * 20000),
                           ("columns", b",".join(b"c%d" % i for i in range(100000)) + b"\n"),
                           ("two of one name", b"time,T1,T1\n2025-03-03 00:05,40,41\n")):
            with self.subTest(name=name):
                code, said = self.import_it(data)
                self.assertEqual(code, 2)
                self.assertNotIn(b"\x1b", said)
                self.assertNotIn(b"\x07", said)
                said.decode()
                self.assertLess(len(said), 50000)

    def test_a_link_among_the_copies_is_not_followed(self):
        victim = self.folder / "victim"
        victim.write_text("precious")
        (self.folder / "copies").mkdir()
        (self.folder / "copies" / time.strftime("site.records-%Y-%m-%d.sqlite")).symlink_to(victim)
        (self.folder / "copy.sqlite").symlink_to(victim)
        self.run_it("export", "yard", "--backup", "copy.sqlite", expected=2)
        self.serve("--backup-folder", "copies")
        time.sleep(12)
        self.assertEqual(victim.read_text(), "precious")


class Sessions(Yard):
    def test_cookies_of_ones_own_making_open_nothing(self):
        self.write_passphrase()
        self.serve("--no-backup", "--lan", "--passphrase-file", "passphrase")
        for body in ("", "{}", "[]", '{"passphrase":1}', '{"passphrase":null}', '{"passphrase":["four plain yard words"]}'):
            self.assertEqual(self.ask("POST", "/api/session", body)[0], 422, body)
        back = self.ask("POST", "/api/session", json.dumps({"passphrase": passphrase}), Cookie="stillheap_session=fixed")[1]
        token = re.search(r"stillheap_session=([0-9a-f]+)", back)[1]
        self.assertRegex(back, r"Set-Cookie: [^\r]*HttpOnly; SameSite=Strict")
        self.assertEqual(self.ask("GET", "/api/yard", Cookie=f"a=b; stillheap_session={token}")[0], 200)
        for other in ("fixed", "", token[:-1], token + "0", token.upper(), f"x; stillheap_session={token}"):
            with self.subTest(other=other[:12]):
                self.assertEqual(self.ask("GET", "/api/yard", Cookie=f"stillheap_session={other}")[0], 401)
        self.ask("DELETE", "/api/session", Cookie=f"stillheap_session={token}")
        self.assertEqual(self.ask("GET", "/api/yard", Cookie=f"stillheap_session={token}")[0], 401)


if __name__ == "__main__":
    os.environ["TZ"] = "UTC"
    unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
