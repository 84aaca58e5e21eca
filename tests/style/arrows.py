#!/usr/bin/env python3
"""tools/check-arrows finds each kind of wrong arrow in a small tree that holds just that one, and nothing in a good tree."""
import pathlib
import subprocess
import sys
import tempfile
import unittest

TOOL = pathlib.Path(__file__).resolve().parents[2] / "tools" / "check-arrows"
GOOD = """stillheap_folder(core/base)
stillheap_folder(domain/vessel DEPENDS base)
stillheap_folder(yard/record DEPENDS base vessel
                 LIBRARIES sqlite)
"""
FILES = {
    "core/base/note.hpp": "#pragma once\n",
    "domain/vessel/design.hpp": '#include <vector>\n#include "core/base/note.hpp"\n',
    "yard/record/store.cpp": '#include "domain/vessel/design.hpp"\n#include "core/base/note.hpp"\n',
}


def found(cmake=GOOD, **changed):
    with tempfile.TemporaryDirectory() as folder:
        root = pathlib.Path(folder)
        (root / "CMakeLists.txt").write_text(cmake)
        for name, text in {**FILES, **{key.replace("__", "/"): text for key, text in changed.items()}}.items():
            name = name if "." in name else name + ".cpp"
            (root / "src" / name).parent.mkdir(parents=True, exist_ok=True)
            (root / "src" / name).write_text(text)
        run = subprocess.run([TOOL, root], capture_output=True, text=True, check=False)
        return run.returncode, run.stdout


class Arrows(unittest.TestCase):
    def refused(self, words, **how):
        code, told = found(**how)
        self.assertEqual(code, 1, told)
        self.assertIn(words, told)
        self.assertEqual(told.count("\n"), 1, told)

    def test_good_tree(self):
        self.assertEqual(found(), (0, ""))

    def test_include_without_depends(self):
        self.refused("src/domain/vessel/clash.cpp:1", domain__vessel__clash='#include "yard/record/store.cpp"\n')

    def test_include_of_a_missing_file(self):
        self.refused("is no file", domain__vessel__clash='#include "core/base/gone.hpp"\n')

    def test_include_without_its_room(self):
        self.refused("is no file", domain__vessel__clash='#include "base/note.hpp"\n')

    def test_depends_on_a_room_below(self):
        self.refused("a room below",
                     cmake="stillheap_folder(core/base)\nstillheap_folder(domain/vessel DEPENDS base)\n"
                           "stillheap_folder(yard/record DEPENDS base vessel)\nstillheap_folder(core/late DEPENDS record)\n",
                     core__late__late='#include "yard/record/store.cpp"\n')

    def test_depends_on_what_comes_later(self):
        self.refused("not declared above", cmake="stillheap_folder(core/base DEPENDS vessel)\n" + GOOD.split("\n", 1)[1],
                     core__base__note='#include "domain/vessel/design.hpp"\n')

    def test_unused_depends(self):
        self.refused("includes nothing of it", yard__record__store='#include "core/base/note.hpp"\n')

    def test_folder_that_is_not_declared(self):
        self.refused("src/domain/weather is not declared", domain__weather__air="")

    def test_nothing_declared(self):
        self.refused("nothing was checked", cmake="project(x)\n")


if __name__ == "__main__":
    sys.exit(unittest.main())
