"""Paints cells with the colours that stand in them."""

from contextlib import contextmanager

from com.sun.star.sheet.CellFlags import FORMULA, STRING

from .office import language
from .screen import rgb_of, text_on


@contextmanager
def one_undo_step(document, title):
    """Whatever is done within is undone at once."""
    undo = document.getUndoManager()
    undo.enterUndoContext(title)
    try:
        yield
    finally:
        undo.leaveUndoContext()


def paint_cell(cell, rgb: int) -> None:
    cell.CellBackColor = rgb
    cell.CharColor = text_on(rgb)


def paint_selection(context, controller, given) -> None:
    """Each selected cell in which a hex colour stands gets that colour, and text that can be read on it; all others stay as they are."""
    document = controller.Model
    title = "Farbtöne malen" if language(context).startswith("de") else "Paint with colours"
    with one_undo_step(document, title):
        # Only what holds text: a whole column may be selected.
        for cell in _cells(document.getCurrentSelection().queryContentCells(STRING | FORMULA)):
            rgb = rgb_of(cell.String)
            if rgb is not None:
                paint_cell(cell, rgb)


def _cells(ranges):
    cells = ranges.getCells().createEnumeration()
    while cells.hasMoreElements():
        yield cells.nextElement()
