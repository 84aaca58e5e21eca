#!/usr/bin/env python3
"""Runs every command of the documents and looks for every file and option that they name.

Usage: run_docs.py PROGRAM WORK. The blocks marked `sh` of one document run as one script in a folder of its own, in the
order in which they stand there. What cannot run here is in `not_run` and `made_short` below, each with its reason; such
commands are still held against the program's options and the files that are there.
"""

import os
import pathlib
import re
import shutil
import subprocess
import sys

root = pathlib.Path(__file__).resolve().parents[2]

not_run = {  # start of the command: why it does not run here
    "./demo": "builds the whole program; it is what a person calls first",
    "./test": "this test is a part of it",
    "tools/": "setting up, building and long runs; the tools are tried by hand and by ./test",
    "cmake": "builds; the test package/install does the same with the tree that is there",
    "build/library/": "the test package/install builds and runs it",
    "systemctl": "needs a user's session; the test package/install has systemd check the unit",
    "sbatch": "needs a Slurm cluster; tried by hand only in parts: see docs/studies.md",
    "stillheap serve yard --lan": "asks for a passphrase and needs a certificate; the browser tests do both",
}
made_short = {  # command of the program: what is added, as the bare command takes a minute or never ends
    "plan": "--grid draft --days 20 --members 2",
    "forecast": "--grid draft --days 20 --members 2",
    "sweep": "",
    "serve": "--port 0",
}
options_of_others = {  # options in the text that belong to other programs
    "--preset", "--install", "--prefix", "--component", "--user", "--build",
}


def documents():
    return [root / "README.md", root / "CONTRIBUTING.md", *sorted((root / "docs").glob("*.md"))]


def commands_of(text):
    """Line number and command of all `sh` blocks; lines that go on are joined, remarks cut off."""
    found, inside, begun, at = [], False, "", 0
    for number, line in enumerate(text.splitlines(), 1):
        if line.startswith("```"):
            inside = line.startswith("```sh")
            continue
        if not inside:
            continue
        line = re.sub(r"\s+#\s.*$", "", line) if not line.startswith("printf") else line
        at = at or number
        begun += line.rstrip("\\") + (" " if line.endswith(("\\", "|")) else "")
        if line.endswith(("\\", "|")):
            continue
        if begun.strip():
            found.append((at, begun.strip()))
        begun, at = "", 0
    return found


def of_program(command):
    """The words after the program's name, or None when it is another program's command."""
    words = re.sub(r"^\w+=\$\(|^mpirun -n \d+ ", "", command).split()
    if words and words[0] in ("stillheap", "build/release/bin/stillheap"):
        return words[1:]
    return None


def why_not_run(command):
    plain = command.replace("build/release/bin/stillheap", "stillheap")
    return next((why for start, why in not_run.items() if plain.startswith(start)), None)


def as_run(command):
    """The command as a line of the script."""
    words = of_program(command)
    if not words:
        return command
    more = made_short.get(words[0], "")
    if words[0] == "serve":
        return f"timeout --preserve-status -s INT 3 {command} {more}"
    return f"{command} {more}" if more and "--grid" not in command else command


def manual(program):
    return subprocess.run([program, "reference", "--man"], check=True, capture_output=True, text=True).stdout


def options_of_program(page):
    """Options by command: {"record reading": {"--by", ...}}."""
    options, command = {}, ""
    for line in page.splitlines():
        if line.startswith(".Ss "):
            command = line[4:]
        if line.startswith(".It Fl"):
            options.setdefault(command, set()).update("-" + one for one in re.findall(r"Fl (\S+)", line))
    return options


def run_blocks(document, program, work):
    """What is wrong with the commands of a document."""
    commands = [(at, one) for at, one in commands_of(document.read_text()) if not why_not_run(one)]
    if not commands:
        return [], 0
    folder = work / document.stem
    shutil.rmtree(folder, ignore_errors=True)
    (folder / "build/release/bin").mkdir(parents=True)
    (folder / "build/release/bin/stillheap").symlink_to(program)
    (folder / "examples").symlink_to(root / "examples")
    script = ["set -euo pipefail", f'PATH="{folder}/build/release/bin:$PATH"']
    if not any("stillheap init yard" in one for _, one in commands):
        script.append("stillheap init yard")
    for at, one in commands:
        if of_program(one) and of_program(one)[0] == "serve" and not (root / "web/dist/index.html").exists():
            print(f"   {document.name}:{at}: the page is not built here, so it is not served")
            continue
        if one.startswith("mpirun") and not shutil.which("mpirun"):
            print(f"   {document.name}:{at}: mpirun is not here (openmpi-bin), so it is not run")
            continue
        script += [f"echo '-- {document.name}:{at}'", as_run(one)]
    # Open MPI wants root, as containers have it, to say that it means it; and it must not matter how many cores there are.
    others = {"OMPI_ALLOW_RUN_AS_ROOT": "1", "OMPI_ALLOW_RUN_AS_ROOT_CONFIRM": "1", "OMPI_MCA_rmaps_base_oversubscribe": "1"}
    run = subprocess.run(["bash", "-c", "\n".join(script)], cwd=folder, env={**os.environ, **others}, capture_output=True,
                         text=True, timeout=500, stdin=subprocess.DEVNULL)
    if run.returncode == 0:
        shutil.rmtree(folder)
        return [], len(commands)
    return [f"{document.name}: a command ended with {run.returncode}\n{run.stdout[-2000:]}{run.stderr[-2000:]}"], 0


def check_command_options(document, options):
    wrong = []
    text = document.read_text()
    inline = [(text[: m.start()].count("\n") + 1, m[1]) for m in re.finditer(r"`((?:build/release/bin/)?stillheap [^`]+)`", text)]
    for at, command in commands_of(text) + inline:
        words = of_program(command)
        if not words or words[0].startswith("-"):
            continue
        name = " ".join(words[:2]) if " ".join(words[:2]) in options else words[0]
        if name not in options:
            wrong.append(f"{document.name}:{at}: there is no command \"{words[0]}\"")
            continue
        cut = re.sub(r"^.*?(?=stillheap )", "", command.split("|")[0])  # a launcher before it has options of its own
        for option in re.findall(r"(?<=\s)(--?[a-z][a-z-]*)", re.sub(r'"[^"]*"|\'[^\']*\'', "", cut)):
            if option not in options[name]:
                wrong.append(f"{document.name}:{at}: {name} has no option {option}")
    return wrong


def check_names(document, options):
    """Files and options named in the running text."""
    wrong, text = [], re.sub(r"```.*?```", "", document.read_text(), flags=re.S)
    known = set().union(*options.values(), options_of_others)
    for source in [*root.glob("tools/*"), *root.glob("tests/*/*.cpp"), *root.glob("bench/**/*"), *root.glob("tests/*/*.py")]:
        if source.is_file():
            known.update(re.findall(r"--[a-z][a-z-]+", source.read_text(errors="ignore")))
    for term in re.findall(r"`([^`\n]+)`", text):
        if re.fullmatch(r"(src|apps|tests|tools|docs|web|bench|examples|cmake|packaging|\.ci)/[\w./*-]*", term):
            if not term.startswith("web/dist") and not list(root.glob(term.rstrip("/"))):
                wrong.append(f"{document.name}: there is no {term}")
        elif re.fullmatch(r"[a-z_0-9]+\.(hpp|cpp|ts|py)", term):
            if not any(list(root.glob(f"{top}/**/{term}")) for top in ("src", "apps", "tests", "web/src", "bench")):
                wrong.append(f"{document.name}: there is no file {term}")
        for option in re.findall(r"^(--[a-z][a-z-]+)", term):
            if option not in known:
                wrong.append(f"{document.name}: nothing has an option {option}")
    for link in re.findall(r"\]\(([^)#\s]+)(?:#[^)]*)?\)", text):
        if not link.startswith(("http:", "https:")) and not (document.parent / link).exists():
            wrong.append(f"{document.name}: the link to {link} leads nowhere")
    return wrong


def main():
    program, work = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
    options = options_of_program(manual(program))
    wrong, ran = [], 0
    for document in documents():
        faults, count = run_blocks(document, program, work)
        ran += count
        wrong += faults + check_command_options(document, options) + check_names(document, options)
    print(f"{ran} commands of {len(documents())} documents ran")
    if ran < 20:
        wrong.append("too few commands were found to prove anything")
    print("\n".join(wrong))
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
