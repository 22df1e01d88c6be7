"""A shelf exported as a workbook has each paint's name on its colour, as an independent reader (openpyxl) sees it, and is read back identically."""

import json
import unittest

import openpyxl

from Calc import bench


class ExportTest(unittest.TestCase):
    def test_names_are_painted_whatever_the_colour_was_stated_as(self):
        folder = bench.temporary_folder(type(self))
        service = bench.RealService(folder)
        self.addCleanup(service.stop)
        service.start()
        service.import_coast()
        more = folder / "more.csv"
        more.write_text("name,L,a,b,opacity\nfoam,96,-1,2,opaque\nabyss,8,3,-9,opaque\n", encoding="utf-8")
        bench.command(service, "shelf", "import", str(more))
        exported = folder / "shelf.xlsx"
        bench.command(service, "shelf", "export", str(exported))

        paints = {paint["name"]: paint for paint in json.loads(bench.command(service, "shelf", "list", "--json"))["paints"]}
        sheet = openpyxl.load_workbook(exported).active
        names = {row[0].value: row[0] for row in sheet.iter_rows(min_row=2)}
        self.assertEqual(set(paints), set(names))
        for name, cell in names.items():
            if "color" not in paints[name]:
                self.assertIsNone(cell.fill.fill_type, name)
                continue
            rgb = cell.fill.fgColor.rgb[-6:]
            if name not in ("foam", "abyss"):
                self.assertEqual(paints[name]["color"]["hex"], "#" + rgb.lower())
            dark = sum(int(rgb[at:at + 2], 16) for at in (0, 2, 4)) < 250
            light = sum(int(rgb[at:at + 2], 16) for at in (0, 2, 4)) > 500
            if dark or light:
                self.assertEqual("FFFFFF" if dark else "000000", cell.font.color.rgb[-6:], name)
        self.assertNotEqual(names["foam"].fill.fgColor.rgb, names["abyss"].fill.fgColor.rgb)

        again = bench.command(service, "shelf", "import", str(exported), "--json")
        self.assertEqual(set(paints), set(json.loads(again)["unchanged"]))


if __name__ == "__main__":
    unittest.main()
