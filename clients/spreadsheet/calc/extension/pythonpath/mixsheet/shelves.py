"""The commands that speak with the service about shelves, and the one that names the service."""

import base64
import csv
import io
import json
import re
import urllib.parse

from . import office
from .cells import plain
from .dialogs import ask_line, say
from .painting import one_undo_step, paint_cell
from .screen import rgb_of
from .service import Refused, Service, TooMuch, Unreachable

# Whoever gave a command looks at the sheet meanwhile; this is how long it may stand still.
SECONDS = 5
HOME = "home"

_TEXTS = {
    "imported": ("{added} paints are new on the shelf {shelf}, {changed} have changed, {unchanged} are as they were.",
                 "{added} Farben sind neu im Regal {shelf}, {changed} haben sich geändert, {unchanged} sind wie zuvor."),
    "no_answer": ("No answer from {address}: {why}. Start it with: mixengine serve --http {host}",
                  "Keine Antwort von {address}: {why}. Zu starten mit: mixengine serve --http {host}"),
    "select": ("Select one table of paints with its header line (name, hex, opacity, ...), or a cell of it.",
               "Eine Farbentabelle mit ihrer Kopfzeile (name, hex, opacity, ...) auswählen, oder eine Zelle darin."),
    "address": ("Address of the service", "Adresse des Dienstes"),
    "no_address": ("'{value}' is not the address of a service; name one such as http://127.0.0.1:7400.",
                   "'{value}' ist keine Adresse eines Dienstes; zu nennen ist eine wie http://127.0.0.1:7400."),
    "shelf": ("Write the shelf", "Regal schreiben"),
    "column": ("colour", "Farbton"),
}


class CannotBeDone(Exception):
    """A command that was not carried out, and why, in plain words."""


def ask_again(context, controller, given) -> None:
    """Forgets every answer and asks all anew: after the shelf has changed, or to fill a sheet that shows only stored values."""
    desk = office.opened()
    if desk is not None:
        desk.forget()
    controller.Model.calculateAll()


def import_table(context, controller, given) -> None:
    """Puts the selected table (or that around the selected cell) on a shelf: the one given, else home."""
    selection = controller.Model.getCurrentSelection()
    if not hasattr(selection, "getDataArray"):
        raise CannotBeDone(_text(context, "select"))
    cursor = selection.Spreadsheet.createCursorByRange(selection)
    if cursor.Rows.Count == 1:
        cursor.collapseToCurrentRegion()
    shelf = given or HOME
    request = {"fileName": "sheet.csv", "content": base64.b64encode(_csv(cursor.getDataArray()).encode()).decode()}
    answer = _ask(context, lambda service: service.post(f"/v1/shelves/{urllib.parse.quote(shelf, safe='')}:import", json.dumps(request), SECONDS))
    counts = {name: len(answer.get(name, ())) for name in ("added", "changed", "unchanged")}
    say(context, controller.Frame, "\n".join([_text(context, "imported", shelf=answer.get("shelf", shelf), **counts), *answer.get("remarks", ())]))


def write_shelf(context, controller, given) -> None:
    """Writes a shelf, as a table that can be imported again, with each paint's name on its own colour."""
    selection = controller.Model.getCurrentSelection()
    if not hasattr(selection, "getCellByPosition"):
        raise CannotBeDone(_text(context, "select"))
    place = "/v1/shelves/" + urllib.parse.quote(given or HOME, safe="")
    exported = _ask(context, lambda service: service.get(place + ":export", SECONDS))
    paints = _ask(context, lambda service: service.get(place + "/paints", SECONDS))["paints"]
    rows = list(csv.reader(io.StringIO(base64.b64decode(exported["content"]).decode("utf-8-sig"))))
    colours = {paint["name"]: rgb_of(paint["color"]["hex"]) for paint in paints if paint.get("color")}

    start = selection.getCellByPosition(0, 0).CellAddress
    sheet = selection.Spreadsheet
    target = sheet.getCellRangeByPosition(start.Column, start.Row, start.Column + len(rows[0]) - 1, start.Row + len(rows) - 1)
    with one_undo_step(controller.Model, _text(context, "shelf")):
        # Cell by cell, for only so can it be undone.
        for i, row in enumerate(rows):
            for j, text in enumerate(row):
                _put(target.getCellByPosition(j, i), text)
        name = rows[0].index("name") if "name" in rows[0] else 0
        for i, row in enumerate(rows[1:], start=1):
            if colours.get(row[name]) is not None:
                paint_cell(target.getCellByPosition(name, i), colours[row[name]])


def name_service(context, controller, given) -> None:
    """Changes the address for this user; functions ask there from now on."""
    address = given or ask_line(context, _text(context, "address"), office.address(context))
    if not address:
        return
    try:
        service = Service(address)
    except ValueError:
        raise CannotBeDone(_text(context, "no_address", value=address)) from None
    office.name_address(context, service.address)


def _ask(context, question):
    service = _service(context)
    try:
        return question(service)
    except (Refused, TooMuch) as fault:
        raise CannotBeDone(str(fault)) from None
    except Unreachable as fault:
        raise CannotBeDone(_text(context, "no_answer", address=service.address, host=service.host, why=fault)) from None


def _service(context):
    desk = office.opened()
    address = desk.service.address if desk is not None else office.address(context)
    try:
        return Service(address)
    except ValueError:
        raise CannotBeDone(_text(context, "no_address", value=address)) from None


def _csv(rows) -> str:
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows([plain(cell) if isinstance(cell, float) else cell for cell in row] for row in rows)
    return text.getvalue()


def _put(cell, text):
    """Numbers as numbers; a hex colour of digits alone is text."""
    if re.fullmatch(r"-?\d{1,5}(\.\d+)?", text):
        cell.Value = float(text)
    else:
        cell.String = text


def _text(context, which, /, **values):
    return _TEXTS[which][office.language(context).startswith("de")].format(**values)
