"""Writes clients/spreadsheet/samples/coast.xlsx: a workbook of the invented coast with live formulas and the values they have now.

    python3 -m Calc.make_sample     (in tests/MixEngine.Spreadsheet.Tests)
"""

import contextlib

from . import bench
from .bench import settled

TARGET = bench.ROOT / "clients/spreadsheet/samples/coast.xlsx"
SHELF = "demo"
AREAS = (
    ("skin", "old net", "wind-bitten cheek", "inner shell"), ("cloak", "tarred rope", "kelp", "sea lettuce"),
    ("trim", "deep channel", "tide pool", "sailcloth"), ("leather", "peat", "driftwood", "weathered bone"),
)
STEPS = 5
WISHES = ("#5a6b3c", "#7a5a48", "#30506a", "#c9a23a")
BOLD = 150.0


def fill(sheet, service_shelf):
    """The whole page, area by area."""
    def put(row, *cells):
        for column, each in enumerate(cells):
            if each is not None:
                cell = sheet.getCellByPosition(column, row)
                cell.Formula = each if isinstance(each, str) else str(each)

    def heading(row, *cells):
        put(row, *cells)
        sheet.getCellRangeByPosition(0, row, max(len(cells) - 1, 0), row).CharWeight = BOLD

    heading(0, "Tide-folk of the coast: what their paints do")
    put(1, "All paints are invented. Fill the shelf with: mixengine demo. Start the service with: mixengine serve --http 127.0.0.1:7400")
    put(2, "shelf", service_shelf)

    heading(4, "area", "shade", "middle", "light", "step", "recipe", "colour", "in words", "step size (dE00)")
    row = 5
    for area, *paints in AREAS:
        for step in range(1, STEPS + 1):
            first = row - step + 2
            through = f'$B${first}&" > "&$C${first}&" > "&$D${first}'
            picked = [f'=MIX.RAMP({through};{STEPS};6;$B$3;$E{row + 1};{column})' for column in (1, 2)]
            put(row, *((area, *paints) if step == 1 else (None,) * 4), step, *picked, f"=MIX.WORDS(G{row + 1})",
                f'=MIX.RAMP({through};{STEPS};6;$B$3;$E{row + 1};3)' if step > 1 else None)
            row += 1

    heading(row + 1, "glaze", "over", "medium", "", "coats", "", "colour", "in words", "change (dE00)")
    row += 2
    for coats in (1, 2, 3, 4):
        first = row - coats + 2
        put(row, *(("tide pool", "=G15", 6) if coats == 1 else (None,) * 3), None, coats, None,
            f"=MIX.GLAZE($A${first};$B${first};E{row + 1};$C${first};$B$3)", f"=MIX.WORDS(G{row + 1})", f"=MIX.DIFFERENCE($B${first};G{row + 1})")
        row += 1

    heading(row + 1, "wished for", "", "", "", "", "recipe", "colour", "in words", "off by (dE00)", "in the way")
    row += 2
    for wish in WISHES:
        picked = [f"=MIX.MATCH($A{row + 1};3;6;$B$3;1;{column})" for column in (1, 2, 3, 4)]
        put(row, wish, None, None, None, None, picked[0], picked[1], f"=MIX.WORDS(G{row + 1})", picked[2], picked[3])
        row += 1
    return row


def make(office, address_of_shelf=SHELF):
    document = office.new()
    sheet = document.Sheets.getByIndex(0)
    sheet.Name = "Tide-folk"
    rows = fill(sheet, address_of_shelf)
    filled = sheet.getCellRangeByPosition(0, 0, 9, rows - 1)
    settled(filled)
    # Values that come from others need one more round.
    settled(filled)
    document.CurrentController.select(filled)
    office.dispatch(document, "vnd.mixengine:paint")
    for column, width in enumerate((2600, 2600, 3200, 2800, 1300, 9500, 2200, 5200, 2600, 8000)):
        sheet.Columns.getByIndex(column).Width = width
    numbers = document.NumberFormats
    locale = document.CharLocale
    key = numbers.queryKey("0.0", locale, False)
    sheet.getCellRangeByPosition(8, 5, 8, rows - 1).NumberFormat = key if key != -1 else numbers.addNew("0.0", locale)
    return document, filled


class _Cleanup:
    def __init__(self, stack):
        self.addClassCleanup = stack.callback


def main():
    with contextlib.ExitStack() as stack:
        folder = bench.temporary_folder(_Cleanup(stack))
        service = bench.RealService(folder)
        stack.callback(service.stop)
        service.start()
        bench.command(service, "shelf", "import", str(bench.COAST), "--shelf", SHELF)
        office = bench.Office(folder / "office", service.address)
        stack.callback(office.close)
        document, filled = make(office)
        faults = [each for row in bench.values(filled) for each in row if isinstance(each, str) and each.startswith("#MIX")]
        assert not faults, faults
        document.storeToURL(TARGET.as_uri(), (bench.value("FilterName", "Calc MS Excel 2007 XML"),))
        document.close(True)


if __name__ == "__main__":
    main()
