#!/usr/bin/env python3
"""Attacks of docs/threats.md against the real program over real sockets, and against what it writes.

Usage: security_tests.py PROGRAM WORK [test names].
"""

import contextlib
import csv
import json
import os
import pathlib
import re
import shutil
import signal
import socket
import ssl
import subprocess
import sys
import time
import unittest
import uuid

program, work = (pathlib.Path(one).resolve() for one in sys.argv[1:3])  # of whichever test file is run
root = pathlib.Path(__file__).resolve().parents[2]
passphrase = "four plain yard words"
nasty = ["<script>alert(1)</script>", "\"'><img src=x onerror=alert(1)>", "=HYPERLINK(\"http://x\",\"y\")", "+1+1",
         "-2+3", "@SUM(A1)", "]]>&lt;\"&#0;"]


def make_certificate(folder):
    subprocess.run(["openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-keyout", "key.pem", "-out",
                    "certificate.pem", "-days", "2", "-subj", "/CN=localhost"], cwd=folder, check=True,
                   capture_output=True)
    (folder / "key.pem").chmod(0o600)


def ask_tls(port, text):
    context = ssl.create_default_context()
    context.check_hostname, context.verify_mode = False, ssl.CERT_NONE
    with socket.create_connection(("127.0.0.1", port), 20) as line, context.wrap_socket(line) as safe:
        safe.sendall(text.encode())
        back = b""
        with contextlib.suppress(OSError):
            while chunk := safe.recv(65536):
                back += chunk
    return back.decode()


class Attack(unittest.TestCase):
    options = []

    def setUp(self):
        self.folder = work / self.id().split(".")[-1]
        shutil.rmtree(self.folder, ignore_errors=True)
        (self.folder / "page/assets").mkdir(parents=True)
        (self.folder / "page/index.html").write_text("<!doctype html>the page")
        (self.folder / "secret.txt").write_text("kept from others")
        self.run_it("init", "yard")
        self.log = open(self.folder / "said.txt", "w", encoding="utf-8")
        self.addCleanup(self.log.close)
        self.server = None

    def tearDown(self):
        if self.server:
            self.server.send_signal(signal.SIGTERM)
            self.assertEqual(self.server.wait(timeout=30), 0, "the server did not end well")
        if all(error is None for _, error in getattr(self._outcome, "errors", [])):
            shutil.rmtree(self.folder, ignore_errors=True)

    def run_it(self, *words, expected=0):
        done = subprocess.run([program, *words], cwd=self.folder, capture_output=True, text=True, timeout=120)
        self.assertEqual(done.returncode, expected, done.stdout + done.stderr)
        return done.stdout + done.stderr

    def serve(self, *options):
        said = self.folder / "said.txt"
        before = said.stat().st_size

        def told():
            return said.read_bytes()[before:].decode(errors="ignore")

        # A port looked for beforehand may be another's by then: the server takes one and says which.
        self.server = subprocess.Popen([program, "serve", "yard", "--port", "0", "--page", "page", *options],
                                       cwd=self.folder, stdout=self.log, stderr=self.log)
        for _ in range(600):
            found = re.search(r"://[^/\s]*:(\d+)", told())
            if found:
                self.port = int(found[1])
                with contextlib.suppress(OSError), socket.create_connection(("127.0.0.1", self.port), 1):
                    return
            if self.server.poll() is not None:
                break
            time.sleep(0.1)
        self.fail("the server does not listen: " + told())

    def write_passphrase(self, mode=0o600):
        """The passphrase in a file of the folder, as --passphrase-file takes it."""
        secret = self.folder / "passphrase"
        secret.write_text(passphrase + "\n")
        secret.chmod(mode)

    def peak_kb(self):
        """The most memory the server held since it began, or since forget_peak."""
        status = pathlib.Path(f"/proc/{self.server.pid}/status").read_text()
        return int(re.search(r"VmHWM:\s+(\d+)", status)[1])

    def forget_peak(self):
        pathlib.Path(f"/proc/{self.server.pid}/clear_refs").write_text("5")
        self.before = self.peak_kb()

    def raw(self, text, wait_s=20):
        """Status and the rest of what comes back for the very bytes; status 0 when the connection is just closed."""
        with socket.create_connection(("127.0.0.1", self.port), wait_s) as line:
            with contextlib.suppress(OSError):
                line.sendall(text if isinstance(text, bytes) else text.encode())
            back = b""
            with contextlib.suppress(OSError):
                while chunk := line.recv(65536):
                    back += chunk
        found = re.match(rb"HTTP/1\.1 (\d+)", back)
        return int(found[1]) if found else 0, back.decode("utf-8", "replace")

    def ask(self, method, path, body="", **more):
        """A request as our page sends it; `more` are headers that stand instead or beside (None: left out)."""
        headers = {"Host": f"localhost:{self.port}", "Connection": "close"}
        if method != "GET":
            headers |= {"Origin": f"http://localhost:{self.port}", "Content-Type": "application/json",
                        "Content-Length": str(len(body.encode()))}
        headers |= {name.replace("_", "-"): value for name, value in more.items()}
        lines = "".join(f"{name}: {value}\r\n" for name, value in headers.items() if value is not None)
        return self.raw(f"{method} {path} HTTP/1.1\r\n{lines}\r\n{body}")


class Paths(Attack):
    def test_no_path_leaves_the_page(self):
        self.serve()
        self.assertIn("the page", self.ask("GET", "/")[1])
        for path in ("/../secret.txt", "/../../../../../../../../etc/passwd", "/%2e%2e/secret.txt", "/..%2fsecret.txt",
                     "/assets/../../secret.txt", "/assets/..%5c..%5csecret.txt", "//etc/passwd", "/./../yard/site.toml",
                     "/%00", "/index.html%00.txt", "/api/photos/..%2F..%2Fsite.toml", "/api/photos/" + "0" * 64,
                     "/site.records.sqlite", "file:///etc/passwd", "/" + "../" * 50 + "etc/passwd"):
            with self.subTest(path=path):
                status, back = self.ask("GET", path)
                self.assertIn(status, (0, 400, 404, 422))
                for leak in ("kept from others", "root:", "[site]", "SQLite format"):
                    self.assertNotIn(leak, back)


class Forgery(Attack):
    def test_other_hosts_are_refused(self):
        self.serve()
        self.assertEqual(self.ask("GET", "/api/yard")[0], 200)
        for host in ("elsewhere.example", f"elsewhere.example:{self.port}", f"localhost.elsewhere.example:{self.port}",
                     "", None, "127.0.0.1.elsewhere.example", "192.0.2.7", "[2001:db8::1]", "localhost@elsewhere.example"):
            with self.subTest(host=host):
                status, back = self.ask("GET", "/api/yard", Host=host)
                self.assertIn(status, (0, 400, 421))
                self.assertNotIn("vessels", back)

    def test_other_pages_may_neither_change_nor_read(self):
        self.serve()
        body = json.dumps({"entries": []})
        self.assertEqual(self.ask("POST", "/api/entries", body)[0], 200)
        for origin in (None, "null", "http://elsewhere.example", f"https://localhost:{self.port}", "http://localhost",
                       f"http://localhost:{self.port}.elsewhere.example", "http://localhost:1"):
            for method, path in (("POST", "/api/entries"), ("DELETE", "/api/session"), ("POST", "/api/forecasts"),
                                 ("PUT", "/api/entries"), ("PATCH", "/api/yard")):
                with self.subTest(origin=origin, method=method, path=path):
                    self.assertEqual(self.ask(method, path, body, Origin=origin)[0], 403)
        back = self.ask("GET", "/api/yard", Origin="http://elsewhere.example")[1].lower()
        self.assertNotIn("access-control-allow", back)
        self.assertIn("cross-origin-resource-policy: same-origin", back)
        self.assertEqual(self.ask("POST", "/api/entries", body, Content_Type="text/plain")[0], 422)  # a form's way


class Bodies(Attack):
    def test_oversize_bodies_are_refused_unread(self):
        self.serve()
        head = f"Host: localhost:{self.port}\r\nOrigin: http://localhost:{self.port}\r\nContent-Type: application/json\r\n"
        for length in ("99999999999", "18446744073709551616", "-1", "1e9", "0x10", ""):
            with self.subTest(length=length):
                begun = time.monotonic()
                status, _ = self.raw(f"POST /api/drafts HTTP/1.1\r\n{head}Content-Length: {length}\r\n\r\n")
                self.assertIn(status, (0, 400, 411, 413))
                self.assertLess(time.monotonic() - begun, 10.0, "it waited for the body")
        status, _ = self.raw(f"POST /api/drafts HTTP/1.1\r\n{head}Transfer-Encoding: chunked\r\n\r\n5\r\n{{}}   \r\n0\r\n\r\n")
        self.assertEqual(status, 411)
        status, _ = self.raw(f"GET /api/yard HTTP/1.1\r\n{head}X: {'x' * 200000}\r\n\r\n")
        self.assertIn(status, (0, 400, 413, 414, 431))
        status, _ = self.raw(f"GET /{'x' * 100000} HTTP/1.1\r\n{head}\r\n")
        self.assertIn(status, (0, 400, 414))
        deep = "[" * 50000
        self.assertEqual(self.ask("POST", "/api/entries", deep)[0], 422)
        self.assertEqual(self.ask("GET", "/api/yard")[0], 200, "it lives on")

    def test_slow_ones_do_not_hold_up_the_others(self):
        self.serve()
        head = f"POST /api/entries HTTP/1.1\r\nHost: localhost:{self.port}\r\nOrigin: http://localhost:{self.port}\r\n"
        slow = []
        for number in range(40):
            line = socket.create_connection(("127.0.0.1", self.port), 20)
            # Half of them never end their headers, half announce a body that does not come.
            line.sendall((head + ("X: " if number % 2 else "Content-Length: 500\r\n\r\n{")).encode())
            slow.append(line)
        for _ in range(3):
            begun = time.monotonic()
            self.assertEqual(self.ask("GET", "/api/yard")[0], 200)
            self.assertLess(time.monotonic() - begun, 8.0, "honest ones wait for slow ones")
        time.sleep(8)
        closed = 0
        for line in slow:
            line.settimeout(1)
            try:
                while line.recv(4096):
                    pass
                closed += 1
            except OSError:
                pass
            line.close()
        self.assertEqual(closed, len(slow), "a silent connection is kept for good")


class SlowBytes(Attack):
    """Bytes that keep coming, one every second, from another address: 127.0.0.2 stands for a machine of the network."""
    options = ["--lan", "--passphrase-file", "passphrase"]
    head_start_s = 15.0  # as src/present/server/connection.hpp says

    def setUp(self):
        super().setUp()
        self.write_passphrase()

    def slow_line(self):
        line = socket.create_connection(("127.0.0.1", self.port), 20, ("127.0.0.2", 0))
        line.setblocking(False)
        return line

    def dribble(self, lines, words):
        """One byte of `words` a second on each line; how long each lasted, and how long honest requests took."""
        lasted, waits, begun = {}, [], time.monotonic()
        while len(lasted) < len(lines) and (now := time.monotonic() - begun) < 60:
            turn = len(waits)
            for number, line in enumerate(lines):
                if number in lasted:
                    continue
                try:
                    line.send(words(number)[turn:turn + 1] or b"x")
                    if not line.recv(4096):
                        lasted[number] = now
                except BlockingIOError:
                    pass
                except OSError:
                    lasted[number] = now
            waits.append(self.honest())
            time.sleep(max(0.0, 1.0 - (time.monotonic() - begun - now)))
        for line in lines:
            line.close()
        self.assertEqual(len(lasted), len(lines), "a slow one is kept for good")
        return list(lasted.values()), waits

    def honest(self):
        begun = time.monotonic()
        self.assertEqual(self.ask("GET", "/")[0], 200)
        return time.monotonic() - begun

    def test_a_byte_a_second_hinders_nobody_and_is_cut_off(self):
        self.serve(*self.options)
        head = f"POST /api/session HTTP/1.1\r\nHost: localhost:{self.port}\r\nOrigin: http://localhost:{self.port}\r\n"
        body = head + "Content-Type: application/json\r\nContent-Length: 500\r\n\r\n{"
        lines = [self.slow_line() for _ in range(100)]
        for line in lines[::2]:
            line.send(body.encode())  # half of them are slow with the body, half with the headers
        lasted, waits = self.dribble(lines, lambda number: b"x" * 60 if number % 2 == 0 else head.encode())
        held = [one for one in lasted if one > 5.0]
        self.assertGreater(len(held), 10, "none was held: nothing was tested")
        self.assertLess(len(held), 30, "one address holds nearly all threads")
        self.assertGreater(min(held), self.head_start_s - 3.0)
        self.assertLess(max(held), self.head_start_s + 6.0)
        self.assertLess(max(waits), 2.0, "honest ones wait for slow ones")

    def test_a_slow_handshake_is_cut_off(self):
        if not shutil.which("openssl"):
            self.skipTest("openssl is not here")
        make_certificate(self.folder)
        self.serve(*self.options, "--certificate", "certificate.pem", "--key", "key.pem")
        self.honest = lambda: 0.0 if ask_tls(self.port, "GET / HTTP/1.1\r\nHost: localhost\r\n\r\n") else 99.0
        hello = bytes.fromhex("1603010100010000fc0303") + bytes(50)  # begins a ClientHello of 256 bytes
        lasted, waits = self.dribble([self.slow_line() for _ in range(20)], lambda _: hello)
        self.assertGreater(min(lasted), self.head_start_s - 3.0)
        self.assertLess(max(lasted), self.head_start_s + 6.0)
        self.assertLess(max(waits), 2.0)

    def test_a_slow_phone_is_not_cut_off(self):
        """Half a megabyte at a slow radio's 20 kB/s: more than the head start, but a work in progress."""
        self.run_it("record", "vessel", "yard", "--name", "n", "--by", "ab")
        fill = json.loads(self.run_it("record", "fill", "yard", "--vessel", "n", "--batch", "1", "--by", "ab", "--at",
                                      "2025-03-01T09:00", "--json"))["id"]
        self.serve(*self.options)
        words = json.dumps({"passphrase": passphrase})
        _, opened = self.ask("POST", "/api/session", words)
        cookie = re.search(r"(?i)set-cookie: ([^=]+=[0-9a-f]+);", opened)[1]
        photo = b"\xff\xd8\xff\xe0" + bytes(500_000)
        head = (f"POST /api/photos?id={uuid.uuid4()}&by=ab&fill={fill}&taken_at=2025-03-02T09:00 HTTP/1.1\r\n"
                f"Host: localhost:{self.port}\r\nOrigin: http://localhost:{self.port}\r\nCookie: {cookie}\r\n"
                f"Content-Type: image/jpeg\r\nContent-Length: {len(photo)}\r\nConnection: close\r\n\r\n")
        begun = time.monotonic()
        with socket.create_connection(("127.0.0.1", self.port), 60, ("127.0.0.2", 0)) as line:
            line.sendall(head.encode())
            for at in range(0, len(photo), 5000):
                line.sendall(photo[at:at + 5000])
                time.sleep(0.25)
            self.assertRegex(line.recv(65536), rb"^HTTP/1\.1 200 ")
        self.assertGreater(time.monotonic() - begun, self.head_start_s + 5.0, "that was not slow")
        kept = [one.stat().st_size for one in (self.folder / "yard").rglob("*.jpg")]
        self.assertEqual(kept, [len(photo)], "the photo did not come through whole")


class Script(Attack):
    def note_nasty(self):
        """A vessel, its fill and a reading that carry nasty text wherever text goes."""
        for number, text in enumerate(nasty):
            self.run_it("record", "vessel", "yard", "--name", text, "--note", text, "--by", "ab")
            self.run_it("record", "fill", "yard", "--vessel", text, "--batch", f"{text}{number}", "--note", text, "--by", "ab",
                        "--at", "2025-03-02T09:00")
            self.run_it("record", "event", "yard", "--vessel", text, "--kind", "other", "--note", text, "--by", "ab",
                        "--at", "2025-03-03T09:00")

    def test_script_in_names_stays_text(self):
        self.note_nasty()
        self.serve()
        for path in ("/api/yard", "/api/today", "/api/export"):
            status, back = self.ask("GET", path)
            self.assertEqual(status, 200)
            head = back.split("\r\n\r\n")[0].lower()
            self.assertIn("x-content-type-options: nosniff", head)
            self.assertIn("default-src 'none'", head)
            self.assertNotIn("unsafe-inline", head)
            self.assertRegex(head, "content-type: (application/json|text/csv)")
        names = {one["vessel"]["name"] for one in json.loads(self.ask("GET", "/api/yard")[1].split("\r\n\r\n", 1)[1])["vessels"]}
        self.assertEqual(names, set(nasty), "text was changed on the way")

    def test_page_never_makes_markup_of_text(self):
        found = []
        for source in (root / "web/src").rglob("*.[tj]s"):
            for ways in re.findall(r"\.(?:inner|outer)HTML\b|insertAdjacentHTML|document\.write|\beval\(|new Function|srcdoc",
                                   source.read_text()):
                found.append(f"{source.name}: {ways}")
        self.assertEqual(found, [])
        self.assertGreater(len(list((root / "web/src").rglob("*.ts"))), 10, "looked in the wrong place")

    def test_exported_cells_never_run_as_formulas(self):
        self.note_nasty()
        self.run_it("export", "yard", "-o", "out")
        cells = 0
        for file in (self.folder / "out").glob("*.csv"):
            with open(file, newline="", encoding="utf-8") as rows:
                for row in csv.reader(rows):
                    for cell in row:
                        cells += 1
                        if cell[:1] in ("=", "+", "-", "@", "\t", "\r"):
                            float(cell)  # a number may begin with a sign, nothing else
        self.assertGreater(cells, 100)
        text = (self.folder / "out/vessels.csv").read_text()
        self.assertIn("'=HYPERLINK", text)

    def test_plan_of_a_site_with_formulas_in_names(self):
        site = self.folder / "yard/site.toml"
        site.write_text(re.sub(r'(?m)^name *= *".*"', 'name = "=1+1"', site.read_text()))
        self.run_it("plan", "yard", "-o", "out", "--grid", "draft", "--days", "8", "--members", "1")
        texts = "".join(file.read_text() for file in (self.folder / "out").rglob("*.csv"))
        self.assertIn("'=1+1", texts, "the name is in no file: nothing was proved")
        for file in (self.folder / "out").glob("*.csv"):
            with open(file, newline="", encoding="utf-8") as rows:
                for row in csv.reader(rows):
                    for cell in row:
                        if cell[:1] in ("=", "+", "-", "@"):
                            float(cell)


class Secrets(Attack):
    def test_passphrase_and_tokens_are_written_nowhere(self):
        if not shutil.which("openssl"):
            self.skipTest("openssl is not here")
        make_certificate(self.folder)
        self.write_passphrase()
        self.serve("--lan", "--passphrase-file", "passphrase", "--certificate", "certificate.pem", "--key", "key.pem")

        def post(words):
            body = json.dumps({"passphrase": words})
            return ask_tls(self.port, f"POST /api/session HTTP/1.1\r\nHost: localhost:{self.port}\r\n"
                                      f"Origin: https://localhost:{self.port}\r\nContent-Type: application/json\r\n"
                                      f"Content-Length: {len(body)}\r\nConnection: close\r\n\r\n{body}")

        wrong = "another guess of mine " + uuid.uuid4().hex
        self.assertIn(" 401 ", post(wrong).splitlines()[0])
        opened = post(passphrase)
        self.assertIn(" 200 ", opened.splitlines()[0])
        cookie = re.search(r"(?i)set-cookie: [^=]+=([0-9a-f]+);.*", opened)
        for wanted in ("HttpOnly", "Secure", "SameSite=Strict"):
            self.assertIn(wanted, cookie[0])
        self.assertIn("Strict-Transport-Security", opened)
        self.assertNotIn(passphrase, opened)
        key = (self.folder / "key.pem").read_text().splitlines()[3]
        commands = pathlib.Path(f"/proc/{self.server.pid}/cmdline").read_bytes() + \
            pathlib.Path(f"/proc/{self.server.pid}/environ").read_bytes()
        self.server.send_signal(signal.SIGTERM)
        self.assertEqual(self.server.wait(timeout=30), 0)
        self.server = None
        self.log.flush()
        written = {"its command line": commands, "what it said": (self.folder / "said.txt").read_bytes()}
        for file in (self.folder / "yard").rglob("*"):
            if file.is_file():
                written[file.name] = file.read_bytes()
        self.assertIn(b"https://", written["what it said"])
        for where, data in written.items():
            for what in (passphrase, wrong, cookie[1], key, "$argon2id$"):
                self.assertNotIn(what.encode(), data, f"a secret stands in {where}")

    def test_passphrase_file_must_be_the_owners(self):
        self.write_passphrase(mode=0o644)
        said = self.run_it("serve", "yard", "--lan", "--passphrase-file", "passphrase", "--page", "page", expected=2)
        self.assertIn("chmod 600", said)
        self.assertNotIn(passphrase, said)


if __name__ == "__main__":
    os.environ["TZ"] = "UTC"
    unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
