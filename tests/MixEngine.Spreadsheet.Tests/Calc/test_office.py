"""The functions and commands in a real headless Calc, against the real service."""

import csv
import io
import json
import subprocess
import sys
import unittest
import zipfile

from . import bench
from .bench import FAULT, WAITING, settled, until, values

FORMULA = "MIXENGINE.CELLS."


def cells(sheet, name):
    return sheet.getCellRangeByName(name)


class OfficeTest(unittest.TestCase):
    """One service and one office for all; each test has its own document."""

    language = ""
    environment = {"MIXENGINE_SHEET_SECONDS": "2"}

    @classmethod
    def setUpClass(cls):
        folder = bench.temporary_folder(cls)
        cls.folder = folder
        cls.service = bench.RealService(folder)
        cls.addClassCleanup(cls.service.stop)
        cls.service.start()
        cls.service.import_coast()
        cls.proxy = bench.CountingProxy(cls.service.port)
        cls.addClassCleanup(cls.proxy.close)
        cls.office = bench.Office(folder / "office", cls.proxy.address, cls.language, **cls.environment)
        cls.addClassCleanup(cls.office.close)

    def setUp(self):
        self.document = self.office.new()
        self.addCleanup(lambda: self.document.close(True))
        self.sheet = self.document.Sheets.getByIndex(0)
        self.proxy.requests.clear()

    def put(self, name, formula):
        cells(self.sheet, name).Formula = formula
        return cells(self.sheet, name)

    def put_array(self, name, formula):
        cells(self.sheet, name).setArrayFormula(formula)
        return cells(self.sheet, name)

    def cli(self, *arguments):
        return json.loads(bench.command(self.service, *arguments, "--json"))


class AnswersTest(OfficeTest):
    def test_values_are_those_of_the_command_line(self):
        predicted = self.cli("predict", "2 tarred rope + 1 kelp")
        glazed = self.cli("glaze", "tide pool", "--medium", "6", "--coats", "3", "--over", "#c9c9c9")
        hexed, glaze = self.put("A1", '=MIX.HEX("2 tarred rope + 1 kelp")'), self.put("A2", '=MIX.GLAZE("tide pool";"#c9c9c9";3;6)')
        words, lab = self.put("A3", "=MIX.WORDS(A1)"), self.put_array("A5:D5", '=MIX.LAB("2 tarred rope + 1 kelp")')

        self.assertEqual([[predicted["color"]["hex"]]], settled(hexed))
        self.assertEqual([[glazed["coats"][2]["color"]["hex"]]], settled(glaze))
        self.assertEqual([[predicted["color"]["words"]]], settled(words))
        expected = [*(predicted["color"]["lab"][axis] for axis in "lab"), predicted["expectedError"]["boundDeltaE00"]]
        for one, other in zip(settled(lab)[0], expected, strict=True):
            self.assertAlmostEqual(other, one, 9)

    def test_arrays_are_those_of_the_command_line(self):
        ramp = self.cli("ramp", "tarred rope", "kelp", "sea lettuce", "--steps", "5", "--drops", "6")["steps"]
        match = self.cli("match", "#5a6b3c", "--paints", "2", "--drops", "5")
        steps = self.put_array("A1:C5", '=MIX.RAMP("tarred rope > kelp > sea lettuce";5)')
        best = self.put_array("A7:D7", '=MIX.MATCH("#5a6b3c";2;5)')
        alone = self.put("A9", '=INDEX(MIX.MATCH("#5a6b3c";2;5);1;2)')
        picked = self.put("B9", '=MIX.RAMP("tarred rope > kelp > sea lettuce";5;;;4;2)')
        outside = self.put("C9", '=MIX.RAMP("tarred rope > kelp > sea lettuce";5;;;6;2)')

        self.assertEqual([[step["recipe"]["text"], step["color"]["hex"]] for step in ramp], [row[:2] for row in settled(steps)])
        for step, row in list(zip(ramp, settled(steps)))[1:]:
            self.assertAlmostEqual(step["stepDeltaE00"], row[2], 9)
        found = match["matches"][0]
        self.assertEqual([found["recipe"]["text"], found["color"]["hex"]], settled(best)[0][:2])
        self.assertAlmostEqual(found["deltaE00"], settled(best)[0][2], 9)
        self.assertEqual(found["color"]["hex"], settled(alone)[0][0])
        self.assertEqual([[ramp[3]["color"]["hex"]]], settled(picked))
        self.assertEqual([[""]], settled(outside))

    def test_the_difference_is_ciede2000(self):
        # Sharma, Wu, Dalal 2005, table 1, pairs 1, 7 and 34.
        pairs = [((50, 2.6772, -79.7751), (50, 0, -82.7485), 2.0425), ((50, 0, 0), (50, -1, 2), 2.3669), ((2.0776, 0.0795, -1.135), (0.9033, -0.0636, -0.5514), 0.9082)]
        cells(self.sheet, "A1:F3").setDataArray(tuple(tuple(map(float, one + other)) for one, other, _ in pairs))
        found = settled(self.put_array("G1:G3", "=MIX.DIFFERENCE(A1:C3;D1:F3)"))
        for (_, _, published), (value,) in zip(pairs, found):
            self.assertAlmostEqual(published, value, delta=0.00005)

    def test_a_table_of_parts_is_a_column_of_colours_in_one_request(self):
        cells(self.sheet, "A1:C3").setDataArray((("tarred rope", "kelp", "gull white"), (2.0, 1.0, ""), (0.0, 1.0, 3.0)))
        column = self.put_array("D2:D3", "=MIX.HEX(A1:C1;A2:C3)")
        expected = [[self.cli("predict", recipe)["color"]["hex"]] for recipe in ("2 tarred rope + 1 kelp", "1 kelp + 3 gull white")]
        self.assertEqual(expected, settled(column))
        self.assertEqual(["POST /v1/batch HTTP/1.1"], self.proxy.requests)

    def test_a_fault_says_what_is_wrong_and_spares_its_neighbours(self):
        cells(self.sheet, "A1:A3").setDataArray((("kelpp",), ("kelp",), ("2 tarred rope +",)))
        column = self.put_array("B1:B3", "=MIX.HEX(A1:A3)")
        after = self.put("C1", "=MIX.WORDS(B1)")
        faulty, right, other = (row[0] for row in settled(column))
        self.assertTrue(faulty.startswith(FAULT) and "'kelpp'" in faulty and "'kelp'" in faulty, faulty)
        self.assertRegex(right, "^#[0-9a-f]{6}$")
        self.assertIn("before or after a '+'", other)
        self.assertEqual([[faulty]], settled(after))
        self.assertIn("no colour", settled(self.put("C2", '=MIX.WORDS("#12")'))[0][0])

    def test_500_distinct_cells_are_at_most_5_requests_and_a_new_row_is_none(self):
        cells(self.sheet, "A1:A500").setDataArray(tuple((float(i),) for i in range(1, 501)))
        cells(self.sheet, "B1:B500").setFormulaArray(tuple((f'=MIX.HEX(A{i}&" kelp + 100 gull white")',) for i in range(1, 501)))
        column = settled(cells(self.sheet, "B1:B500"))
        self.assertTrue(all(row[0].startswith("#") and len(row[0]) == 7 for row in column))
        self.assertLessEqual(len(self.proxy.requests), 5, self.proxy.requests)

        self.proxy.requests.clear()
        self.sheet.Rows.insertByIndex(100, 1)
        self.document.calculate()
        self.assertEqual(column, [row for i, row in enumerate(values(cells(self.sheet, "B1:B501"))) if i != 100])
        self.assertEqual([], self.proxy.requests)

    def test_equal_cells_are_one_question(self):
        formulas = cells(self.sheet, "A1:A50")
        formulas.setFormulaArray((('=MIX.HEX("3 peat + 2 wet sand")',),) * 50)
        self.assertEqual(1, len({row[0] for row in settled(formulas)}))
        self.assertEqual(1, len(self.proxy.requests))

    def test_a_changed_cell_is_asked_anew(self):
        self.put("A1", "kelp")
        answer = self.put("B1", "=MIX.HEX(A1)")
        kelp = settled(answer)
        self.put("A1", "peat")
        self.assertNotEqual(kelp, settled(answer))

    def test_saved_and_reopened_files_hold_values_and_live_formulas(self):
        for ending, filter_name in (("ods", "calc8"), ("xlsx", "Calc MS Excel 2007 XML"), ("fods", "OpenDocument Spreadsheet Flat XML")):
            self.put("A1", "kelp")
            kelp = settled(self.put("B1", "=MIX.HEX(A1)"))
            file = self.folder / f"saved.{ending}"
            self.document.storeToURL(file.as_uri(), (bench.value("FilterName", filter_name),))

            again = self.office.open(file)
            try:
                sheet = again.Sheets.getByIndex(0)
                self.assertEqual(kelp, settled(cells(sheet, "B1")), ending)
                self.assertIn(FORMULA + "HEX", cells(sheet, "B1").Formula.upper(), ending)
                cells(sheet, "A1").Formula = "peat"
                self.assertEqual([[self.cli("predict", "peat")["color"]["hex"]]], settled(cells(sheet, "B1")), ending)
            finally:
                again.close(True)

    def test_the_wizard_describes_every_function(self):
        sys.path.insert(0, str(bench.CALC))
        from functions import FUNCTIONS

        described = self.office.create("com.sun.star.sheet.FunctionDescriptions")
        for function in FUNCTIONS:
            texts = {each.Name: each.Value for each in described.getByName(function.name)}
            self.assertEqual(function.text[0], texts["Description"])
            self.assertEqual([(p.shown[0], p.text[0]) for p in function.parameters], [(each.Name, each.Description) for each in texts["Arguments"]])

    def test_nothing_is_asked_but_the_configured_service(self):
        settled(self.put("A1", '=MIX.HEX("4 kelp + 3 peat")'))
        self.office.dispatch(self.document, "vnd.mixengine:again")
        settled(cells(self.sheet, "A1"))
        self.assertTrue(all(line.startswith("POST /v1/batch ") for line in self.proxy.requests), self.proxy.requests)


class CommandsTest(OfficeTest):
    def select(self, name):
        self.document.CurrentController.select(cells(self.sheet, name))

    def test_painting_is_one_undo_step(self):
        cells(self.sheet, "A1:B2").setDataArray((("#102030", "kelp"), ("#f0f0e0", 7.0)))
        settled(self.put("C1", '=MIX.HEX("buoy yellow")'))
        before = [cells(self.sheet, name).CellBackColor for name in ("A1", "B1", "A2", "B2", "C1")]
        self.select("A1:C2")
        self.office.dispatch(self.document, "vnd.mixengine:paint")

        shown = cells(self.sheet, "C1").String
        self.assertEqual([0x102030, before[1], 0xF0F0E0, before[3], int(shown[1:], 16)],
                         [cells(self.sheet, name).CellBackColor for name in ("A1", "B1", "A2", "B2", "C1")])
        self.assertEqual([0xFFFFFF, 0], [cells(self.sheet, name).CharColor for name in ("A1", "A2")])

        self.document.UndoManager.undo()
        self.assertEqual(before, [cells(self.sheet, name).CellBackColor for name in ("A1", "B1", "A2", "B2", "C1")])

    def test_a_table_becomes_a_shelf_and_a_shelf_a_painted_table(self):
        table = list(csv.reader(io.StringIO(bench.COAST.read_text(encoding="utf-8"))))
        cells(self.sheet, f"A1:J{len(table)}").setDataArray(tuple(tuple(float(cell) if cell.isdigit() else cell for cell in row) for row in table))
        self.select("B3")
        self.office.dispatch(self.document, "vnd.mixengine:import?sheet-shelf")
        status, shelf = self.service.get("/v1/shelves/sheet-shelf/paints")
        self.assertEqual(200, status)
        self.assertEqual([row[0] for row in table[1:]], [paint["name"] for paint in shelf["paints"]])
        self.assertEqual(self.service.get("/v1/shelves/home/paints")[1]["paints"], shelf["paints"])

        self.select("M1")
        self.office.dispatch(self.document, "vnd.mixengine:shelf?sheet-shelf")
        header = values(cells(self.sheet, "M1:Z1"))[0]
        self.assertEqual("name", header[0])
        self.assertEqual([row[0] for row in table[1:]], [row[0] for row in values(cells(self.sheet, f"M2:M{len(table)}"))])
        self.assertEqual([int(paint["color"]["hex"][1:], 16) for paint in shelf["paints"] if paint.get("color")],
                         [cells(self.sheet, f"M{i}").CellBackColor for i in range(2, len(table) + 1) if cells(self.sheet, f"M{i}").CellBackColor != -1])

        # What was written can be put on a shelf again, and nothing has changed.
        self.select("M1")
        self.office.dispatch(self.document, "vnd.mixengine:import?third")
        self.assertEqual(shelf["paints"], self.service.get("/v1/shelves/third/paints")[1]["paints"])

        self.document.UndoManager.undo()
        self.assertEqual("", cells(self.sheet, "M1").String)

    def test_a_table_that_is_none_is_refused_with_its_fault(self):
        cells(self.sheet, "A1:B2").setDataArray((("name", "hex"), ("kelp", "#12")))
        self.select("A1")
        self.office.dispatch(self.document, "vnd.mixengine:import?faulty")
        self.assertIn('"#12"', self.office.messages.read_text(encoding="utf-8"))
        self.assertEqual(404, self.service.get("/v1/shelves/faulty/paints")[0])

    def test_another_service_can_be_named(self):
        other = bench.CountingProxy(self.service.port)
        try:
            self.office.dispatch(self.document, f"vnd.mixengine:service?{other.address}")
            settled(self.put("A1", '=MIX.HEX("5 kelp + 3 peat")'))
            self.assertEqual(1, len(other.requests))
            self.assertEqual([], self.proxy.requests)
        finally:
            self.office.dispatch(self.document, f"vnd.mixengine:service?{self.proxy.address}")
            other.close()


class OutageTest(OfficeTest):
    def test_a_silent_service_does_not_hold_up_the_sheet_and_its_cells_heal(self):
        self.service.pause()
        try:
            waiting = self.put("A1", '=MIX.HEX("7 kelp + 3 peat")')
            self.assertTrue(waiting.String.startswith(WAITING), waiting.String)
            self.assertEqual(3.0, self.put("A2", "=1+2").Value)
            until(lambda: "silent for 2 s" in waiting.String, "the silence is told")
            self.assertEqual(7.0, self.put("A2", "=3+4").Value)
        finally:
            self.service.go_on()
        until(lambda: len(waiting.String) == 7, "healed")
        self.assertEqual(self.cli("predict", "7 kelp + 3 peat")["color"]["hex"], waiting.String)

    def test_an_outage_is_told_and_over_when_it_is_over(self):
        before = settled(self.put("A1", '=MIX.HEX("8 kelp + 3 peat")'))
        self.service.stop()
        try:
            missing, column = self.put("A2", '=MIX.HEX("9 kelp + 3 peat")'), self.put_array("B1:B2", '=MIX.HEX({"10 kelp + 3 peat"|"8 kelp + 3 peat"})')
            until(lambda: missing.String.startswith(FAULT), "the outage is told")
            self.assertIn(self.proxy.address, missing.String)
            self.assertIn("mixengine serve --http", missing.String)
            self.assertEqual(before, values(cells(self.sheet, "A1")))
            until(lambda: values(column)[0][0].startswith(FAULT) and values(column)[1] == before[0], "what is known stays")
        finally:
            self.service.start()
        until(lambda: len(missing.String) == 7 and len(values(column)[0][0]) == 7, "healed by itself")


class GermanOfficeTest(OfficeTest):
    language = "de-DE"

    def test_decimal_commas_and_german_texts(self):
        described = self.office.create("com.sun.star.sheet.FunctionDescriptions")
        texts = {each.Name: each.Value for each in described.getByName("MIX.HEX")}
        self.assertTrue(texts["Description"].startswith("Der getrocknete Farbton"), texts["Description"])
        self.assertEqual(["Farben", "Teile", "Regal"], [each.Name for each in texts["Arguments"]])

        # As a user types it: the sheet's own conversion of 2.5 to text has a comma.
        cells(self.sheet, "A1").FormulaLocal = "2,5"
        self.assertEqual(2.5, cells(self.sheet, "A1").Value)
        self.assertEqual("2,5 tarred rope", self.put("A2", '=A1&" tarred rope"').String)
        mixed = self.put("A3", '=MIX.HEX(A2&" + 1 kelp")')
        expected = self.cli("predict", "2.5 tarred rope + 1 kelp")["color"]["hex"]
        self.assertEqual([[expected]], settled(mixed))
        numbers = self.put_array("B1:E1", '=MIX.LAB("2,5 tarred rope + 1 kelp")')
        self.assertTrue(all(isinstance(each, float) for each in settled(numbers)[0]))
        self.assertIn("ist keine ganze Zahl", settled(self.put("A4", '=MIX.GLAZE("tide pool";"weiß";1.5)'))[0][0])

        # The file is the same for an English office.
        file = self.folder / "german.ods"
        self.document.storeToURL(file.as_uri(), ())
        with zipfile.ZipFile(file) as archive:
            self.assertIn(FORMULA + "HEX([.A2]&", archive.read("content.xml").decode().replace("&amp;", "&"))


class WithoutExtensionTest(OfficeTest):
    def test_stored_values_stay(self):
        self.put("A1", "kelp")
        texts = settled(self.put("B1", "=MIX.HEX(A1)")) + settled(self.put("C1", '=MIX.MATCH("#456789";2;4;;1;1)'))
        numbers = settled(self.put("D1", "=MIX.LAB(A1;;;1;2)")) + settled(self.put("E1", '=MIX.DIFFERENCE(B1;"#808080")'))
        texts, numbers = [row[0] for row in texts], [row[0] for row in numbers]
        files = {self.folder / "stays.ods": "calc8", self.folder / "stays.xlsx": "Calc MS Excel 2007 XML"}
        for file, filter_name in files.items():
            self.document.storeToURL(file.as_uri(), (bench.value("FilterName", filter_name),))

        plain = bench.Office(self.folder / "plain", self.proxy.address, with_extension=False)
        try:
            for file in files:
                document = plain.open(file)
                sheet = document.Sheets.getByIndex(0)
                self.assertEqual(texts, values(cells(sheet, "B1:C1"))[0], file.name)
                if file.suffix == ".xlsx":
                    for stored, shown in zip(numbers, values(cells(sheet, "D1:E1"))[0], strict=True):
                        self.assertAlmostEqual(stored, shown, 9)
                document.close(True)
        finally:
            plain.close()

        # Calc 7.4 shows no stored number of an .ods whose function it does not know; in the file they are.
        with zipfile.ZipFile(self.folder / "stays.ods") as archive:
            content = archive.read("content.xml").decode()
        for number in numbers:
            self.assertIn(f'office:value="{number:.15g}', content)

    def test_a_conversion_can_wait_for_the_answers(self):
        file = self.folder / "convert.fods"
        file.write_text(f"""<?xml version="1.0" encoding="UTF-8"?>
<office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"
 xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2" office:version="1.3" office:mimetype="application/vnd.oasis.opendocument.spreadsheet"><office:body><office:spreadsheet><table:table table:name="Sheet1">
<table:table-row><table:table-cell table:formula="of:={FORMULA}HEX(&quot;11 kelp + 3 peat&quot;)"/></table:table-row>
</table:table></office:spreadsheet></office:body></office:document>""", encoding="utf-8")
        other = bench.Office(self.folder / "waits", self.proxy.address, MIXENGINE_SHEET_WAIT="1")
        try:
            document = other.open(file)
            target = self.folder / "convert.csv"
            document.storeToURL(target.as_uri(), (bench.value("FilterName", "Text - txt - csv (StarCalc)"),))
            document.close(True)
        finally:
            other.close()
        self.assertEqual(self.cli("predict", "11 kelp + 3 peat")["color"]["hex"], target.read_text().strip())


class InstalledByCommandTest(unittest.TestCase):
    def test_the_sample_of_the_command_lives_in_an_office_installed_by_the_command(self):
        folder = bench.temporary_folder(type(self))
        service = bench.RealService(folder)
        self.addCleanup(service.stop)
        service.start()
        bench.command(service, "shelf", "import", str(bench.COAST), "--shelf", "demo")
        sample = folder / "sample.xlsx"
        subprocess.run([bench.program("MixEngine.Cli", "mixengine"), "sheet", "sample", sample], check=True, stdout=subprocess.DEVNULL)

        office = bench.Office(folder / "office", service.address, by_command=True)
        self.addCleanup(office.close)
        document = office.open(sample)
        sheet = document.Sheets.getByIndex(0)
        cursor = sheet.createCursor()
        cursor.gotoEndOfUsedArea(False)
        used = sheet.getCellRangeByPosition(0, 0, cursor.RangeAddress.EndColumn, cursor.RangeAddress.EndRow)
        stored = values(used)
        self.assertNotIn("#MIX", str(stored))

        # Another paint in the first ramp, and every step of it is another.
        self.assertEqual("old net", cells(sheet, "B6").String)
        cells(sheet, "B6").Formula = "buoy red"
        until(lambda: cells(sheet, "F6").String == "1 buoy red", "the ramp begins with the other paint")
        office.dispatch(document, "vnd.mixengine:again")
        self.assertNotIn("#MIX", str(settled(used)))
        self.assertEqual(0, sum(used.getCellByPosition(j, i).getError() for i in range(len(stored)) for j in range(len(stored[0]))))
        document.close(True)


if __name__ == "__main__":
    unittest.main()
