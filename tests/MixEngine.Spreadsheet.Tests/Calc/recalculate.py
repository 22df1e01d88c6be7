"""How long 5,000 distinct cells take to recalculate in Calc, beside the same work asked directly in batches. The aim: less than three times as long.

    python3 -m Calc.recalculate     (in tests/MixEngine.Spreadsheet.Tests)
"""

import contextlib
import time

from . import bench
from .make_sample import _Cleanup

CELLS = 5000
MOST = 200


def recipe(i, salt):
    return f"{i + 1}.{salt} tarred rope + 1 kelp + 3 peat"


def direct(service, salt):
    begin = time.perf_counter()
    for start in range(0, CELLS, MOST):
        items = [{"key": str(i), "predict": {"recipe": {"text": recipe(i, salt)}}} for i in range(start, start + MOST)]
        status, answer = service.post("/v1/batch", {"items": items})
        assert status == 200 and len(answer["answers"]) == MOST
    return time.perf_counter() - begin


def in_calc(office, salt):
    document = office.new()
    document.enableAutomaticCalculation(False)
    cells = document.Sheets.getByIndex(0).getCellRangeByName(f"A1:A{CELLS}")
    cells.setFormulaArray(tuple((f'=MIX.HEX("{recipe(i, salt)}")',) for i in range(CELLS)))
    document.enableAutomaticCalculation(True)
    begin = time.perf_counter()
    document.calculateAll()
    column = bench.settled(cells)
    took = time.perf_counter() - begin
    assert all(len(row[0]) == 7 for row in column)
    document.close(True)
    return took


def main():
    with contextlib.ExitStack() as stack:
        folder = bench.temporary_folder(_Cleanup(stack))
        service = bench.RealService(folder)
        stack.callback(service.stop)
        service.start()
        service.import_coast()
        office = bench.Office(folder / "office", service.address)
        stack.callback(office.close)
        direct(service, 1)
        in_calc(office, 2)
        for salt in (3, 5, 7):
            asked, shown = direct(service, salt), in_calc(office, salt + 1)
            print(f"{CELLS} cells: asked directly {asked:.2f} s, in Calc {shown:.2f} s, {shown / asked:.1f} times")


if __name__ == "__main__":
    main()
