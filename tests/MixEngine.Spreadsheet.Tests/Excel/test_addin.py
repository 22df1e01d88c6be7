"""The add-in for Excel: built, type-checked and tested with the published mocks, and asked for answers of the real service."""

import os
import shutil
import subprocess
import unittest

from Calc import bench

# Beside the other build outputs, so that the sources stay free of packages.
WORKSHOP = bench.ROOT / ".artifacts/excel"
SOURCES = bench.ROOT / "clients/spreadsheet/excel"


class AddinTest(unittest.TestCase):
    def test_it_builds_and_passes_its_own_tests_with_the_real_service(self):
        WORKSHOP.mkdir(parents=True, exist_ok=True)
        for name in ("src", "site", "test"):
            shutil.rmtree(WORKSHOP / name, ignore_errors=True)
            shutil.copytree(SOURCES / name, WORKSHOP / name)
        for name in ("package.json", "package-lock.json", "tsconfig.json", "build.mjs"):
            shutil.copy(SOURCES / name, WORKSHOP / name)
        # npm writes this file last: an installation that was broken off is made again.
        if not (WORKSHOP / "node_modules/.package-lock.json").exists():
            self.run_in_workshop("npm", "ci", "--no-audit", "--no-fund", "--ignore-scripts")

        folder = bench.temporary_folder(type(self))
        service = bench.RealService(folder)
        self.addCleanup(service.stop)
        service.start()
        service.import_coast()
        output = self.run_in_workshop("npm", "test", MIXENGINE_SHEET_SERVICE=service.address)
        self.assertIn("# skipped 0", output)

    def run_in_workshop(self, *command, **environment):
        done = subprocess.run(command, cwd=WORKSHOP, env={**os.environ, **environment}, capture_output=True, text=True, timeout=300)
        self.assertEqual(0, done.returncode, done.stdout + done.stderr)
        return done.stdout


if __name__ == "__main__":
    unittest.main()
