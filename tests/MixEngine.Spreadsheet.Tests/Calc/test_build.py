"""The extension is built from its sources, always to the same bytes."""

import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
import unittest
import xml.etree.ElementTree as xml
import zipfile

from . import bench

sys.path.insert(0, str(bench.CALC))
import build  # noqa: E402
from functions import FUNCTIONS  # noqa: E402

NAME = "{http://openoffice.org/2001/registry}name"
LANGUAGE = "{http://www.w3.org/XML/1998/namespace}lang"


class BuildTest(unittest.TestCase):
    def test_two_builds_are_equal_whatever_the_files_dates(self):
        with tempfile.TemporaryDirectory() as folder:
            packages = [pathlib.Path(folder, name) for name in ("one.oxt", "two.oxt")]
            for package, day in zip(packages, (1_000_000_000, 1_500_000_000)):
                copy = pathlib.Path(folder, package.stem)
                shutil.copytree(bench.CALC, copy)
                for path in copy.rglob("*"):
                    os.utime(path, (day, day))
                subprocess.run([sys.executable, copy / "build.py", package], check=True)
            self.assertEqual(packages[0].read_bytes(), packages[1].read_bytes())

    def test_what_is_generated_is_up_to_date(self):
        self.assertEqual(build.idl(), (build.EXTENSION / "Cells.idl").read_text(encoding="utf-8"))
        self.assertEqual(build.add_ins(), (build.EXTENSION / "registry/CalcAddIns.xcu").read_text(encoding="utf-8"))

    @unittest.skipUnless((build.OFFICE / "sdk/bin/unoidl-write").exists(), "unoidl-write is not installed (libreoffice-dev)")
    def test_the_compiled_interface_is_up_to_date(self):
        with tempfile.TemporaryDirectory() as folder:
            compiled = pathlib.Path(folder, "Cells.rdb")
            build.compile_interface(build.EXTENSION / "Cells.idl", compiled)
            self.assertEqual(compiled.read_bytes(), (build.EXTENSION / "Cells.rdb").read_bytes())

    def test_every_function_and_parameter_is_described_in_both_languages(self):
        tree = xml.parse(build.EXTENSION / "registry/CalcAddIns.xcu")
        texts = [prop for prop in tree.iter("prop") if prop.get(NAME) in ("Description",)]
        self.assertEqual(sum(1 + len(function.parameters) for function in FUNCTIONS), len(texts))
        for prop in texts:
            english, german = ([value.text for value in prop if value.get(LANGUAGE) == language][0] for language in ("en", "de"))
            self.assertTrue(english and german and english != german, english)

    def test_every_file_that_the_manifest_names_is_there(self):
        with tempfile.TemporaryDirectory() as folder:
            package = pathlib.Path(folder, "x.oxt")
            build.pack(package)
            with zipfile.ZipFile(package) as archive:
                named = [entry.get("{http://openoffice.org/2001/manifest}full-path") for entry in xml.fromstring(archive.read("META-INF/manifest.xml"))]
                self.assertLessEqual(set(named), set(archive.namelist()))

    def test_nothing_but_the_standard_library_is_imported(self):
        import ast

        for path in build.EXTENSION.rglob("*.py"):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                modules = [alias.name for alias in node.names] if isinstance(node, ast.Import) else [node.module or "."] if isinstance(node, ast.ImportFrom) and not node.level else []
                for module in modules:
                    top = module.split(".")[0]
                    self.assertTrue(top in sys.stdlib_module_names or top in ("uno", "unohelper", "com", "mixengine", "mixsheet"), f"{path.name}: {module}")


if __name__ == "__main__":
    unittest.main()
