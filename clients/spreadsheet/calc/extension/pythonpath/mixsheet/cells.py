"""From the arguments of a function to questions, and from answers to values of cells. Knows nothing of Calc, nothing of paint."""

import json
import re
from typing import Callable, NamedTuple

from .phrases import FAULT, is_message, phrase

MOST_IN_RANGE = 20_000
PRIMERS = {"black": "black", "grey": "grey", "gray": "grey", "white": "white", "schwarz": "black", "grau": "grey", "weiß": "white", "weiss": "white"}


class Question(NamedTuple):
    """One question, as the service's contract words it. Equal questions are asked once."""

    kind: str
    body: str


class Cell(NamedTuple):
    """A question and how its answer becomes one row of cells."""

    question: Question
    read: Callable[[dict], tuple]


class Fault(Exception):
    """Arguments that cannot be asked: the text that the cell shows."""


BLANK = ("",)


class Reader:
    """Reads the arguments of one call."""

    def __init__(self, language: str):
        self.language = language
        self.picked = None

    # --- the functions; each gives a grid of entries -----------------------------------------------------------------

    def hex(self, paints=None, parts=None, shelf=None):
        return self._predicted(paints, parts, shelf, lambda answer: (answer["color"]["hex"],))

    def lab(self, paints=None, parts=None, shelf=None, row=None, column=None):
        self._pick(row, column)
        def read(answer):
            lab = answer["color"]["lab"]
            return (lab["l"], lab["a"], lab["b"], answer["expectedError"]["boundDeltaE00"])

        grid = self._predicted(paints, parts, shelf, read)
        return [[cell] for row in grid for cell in row]

    def ramp(self, through=None, steps=None, drops=None, shelf=None, row=None, column=None):
        self._pick(row, column)
        cells = [self._text("through", value) for row in table(through) for value in row if not is_empty(value)]
        if len(cells) == 1:
            cells = [part.strip() for part in cells[0].split(">")]
        body = {
            "through": [{"text": recipe_text(cell)} for cell in cells],
            "steps": self._whole("steps", steps, 0), "drops": self._whole("drops", drops, 0), **self._shelf(shelf)}

        def read(answer):
            return tuple((step["recipe"]["text"], step["color"]["hex"], number_or_blank(step.get("stepDeltaE00"))) for step in answer["steps"])

        return [[Cell(question("ramp", body), read)]]

    def match(self, colour=None, most=None, drops=None, shelf=None, row=None, column=None):
        self._pick(row, column)
        rest = {"paints": self._whole("most", most, 0), "drops": self._whole("drops", drops, 0), **self._shelf(shelf)}

        def read(answer):
            best = answer["matches"][0]
            return (best["recipe"]["text"], best["color"]["hex"], best["deltaE00"], answer.get("reason", ""))

        def ask(cell):
            target = self._colour("colour", cell)
            return Cell(question("match", {"target": target, **rest}), read) if target else BLANK

        return [[self._entry(ask, cell)] for row in colours(colour) for cell in row]

    def glaze(self, paints=None, over=None, coats=None, medium=None, shelf=None):
        rest = self._shelf(shelf)

        def read(answer):
            return (answer["coats"][-1]["color"]["hex"],)

        def ask(recipe, beneath, count, parts):
            if is_empty(recipe) or is_empty(beneath):
                return BLANK
            body = {
                "recipe": {"text": recipe_text(self._text("paints", recipe))}, "over": self._surface(beneath),
                "coats": self._whole("coats", count, 1), "mediumParts": self._number("medium", parts, 0), **rest}
            return Cell(question("glaze", body), read)

        grid = self._broadcast(("paints", table(paints)), ("over", colours(over)), ("coats", table(coats)), ("medium", table(medium)))
        return [[self._entry(ask, *cells) for cells in row] for row in grid]

    def difference(self, first=None, second=None):
        def read(answer):
            return (answer["deltaE00"],)

        def ask(one, other):
            one, other = self._colour("first", one), self._colour("second", other)
            return Cell(question("difference", {"first": one, "second": other}), read) if one and other else BLANK

        grid = self._broadcast(("first", colours(first)), ("second", colours(second)))
        return [[self._entry(ask, *cells) for cells in row] for row in grid]

    def words(self, colour=None):
        def read(answer):
            return (answer["color"]["words"],)

        def ask(cell):
            color = self._colour("colour", cell)
            return Cell(question("words", {"color": color}), read) if color else BLANK

        return [[self._entry(ask, cell) for cell in row] for row in colours(colour)]

    # --- their parts -------------------------------------------------------------------------------------------------

    def _pick(self, row, column):
        """Of an array, the one value that is wanted."""
        if not is_empty(row):
            place = self._whole("row", row, 1), self._whole("column", column, 1)
            if min(place) < 1:
                raise self._fault("place")
            self.picked = place

    def _entry(self, ask, *cells):
        """One entry; what cannot be asked is the fault of this entry alone."""
        try:
            return ask(*cells)
        except Fault as fault:
            return (str(fault),)

    def _predicted(self, paints, parts, shelf, read):
        rest = self._shelf(shelf)

        def ask(recipe):
            return Cell(question("predict", {"recipe": recipe, **rest}), read) if recipe else BLANK

        def of_text(cell):
            return ask(None if is_empty(cell) else {"text": recipe_text(self._text("paints", cell))})

        def of_parts(names, numbers):
            parts = [(name, self._number("parts", number, 0)) for name, number in zip(names, numbers) if not is_empty(number)]
            used = [{"paint": self._text("paints", name), "parts": number} for name, number in parts if number != 0]
            return ask({"parts": used} if used else None)

        if is_empty(parts):
            return [[self._entry(of_text, cell) for cell in row] for row in table(paints)]

        names, numbers = table(paints), table(parts)
        if len(names) > 1 and len(names[0]) > 1:
            raise self._fault("names")
        in_column = len(names) > 1 or (len(names[0]) == 1 and len(numbers) == 1)
        names = [name for row in names for name in row]
        recipes = list(zip(*numbers)) if in_column else numbers
        if any(len(recipe) != len(names) for recipe in recipes):
            raise self._fault("parts", rows=len(numbers), columns=len(numbers[0]), paints=len(names))
        entries = [self._entry(of_parts, names, recipe) for recipe in recipes]
        return [entries] if in_column else [[entry] for entry in entries]

    def _colour(self, name, cell):
        """A colour as the contract has it; None where the cell is empty."""
        if is_empty(cell) or isinstance(cell, dict):
            return cell or None
        if not isinstance(cell, str):
            raise self._fault("colour", name=name, value=plain(cell))
        return {"text": colour_text(self._text(name, cell))}

    def _surface(self, cell):
        if isinstance(cell, dict):
            return {"color": cell}
        text = self._text("over", cell).strip()
        if text.startswith("#") or text.lower().startswith("lab:"):
            return {"color": {"text": colour_text(text)}}
        if text.lower() in PRIMERS:
            return {"primer": PRIMERS[text.lower()]}
        return {"recipe": {"text": recipe_text(text)}}

    def _broadcast(self, *named):
        """Ranges of one shape side by side; a single cell, row or column goes with each of the others."""
        rows = max(len(grid) for _, grid in named)
        columns = max(len(grid[0]) for _, grid in named)
        for name, grid in named:
            if len(grid) not in (1, rows) or len(grid[0]) not in (1, columns):
                raise self._fault("shape", name=name, rows=len(grid), columns=len(grid[0]), other_rows=rows, other_columns=columns)
        return [[tuple(grid[r if len(grid) > 1 else 0][c if len(grid[0]) > 1 else 0] for _, grid in named)
                 for c in range(columns)] for r in range(rows)]

    def _shelf(self, value):
        cell = table(value)[0][0]
        return {} if is_empty(cell) else {"shelf": self._text("shelf", cell).strip()}

    def _text(self, name, value):
        if is_message(value):
            raise Fault(value)
        if is_empty(value):
            raise self._fault("empty", name=name)
        return value if isinstance(value, str) else plain(value)

    def _number(self, name, value, otherwise):
        value = table(value)[0][0]
        if is_empty(value):
            return otherwise
        if is_message(value):
            raise Fault(value)
        if isinstance(value, str):
            if not _NUMBER.fullmatch(value.strip()):
                raise self._fault("number", name=name, value=value)
            value = value.strip().replace(",", ".")
        return float(value)

    def _whole(self, name, value, otherwise):
        number = self._number(name, value, otherwise)
        if number != int(number):
            raise self._fault("whole", name=name, value=plain(number))
        return int(number)

    def _fault(self, which, /, **values):
        return Fault(FAULT + phrase(self.language, which, **values))


def read_call(function: str, arguments: tuple, language: str) -> tuple:
    """The grid of entries that a call asks for: rows of Cells, and of finished rows of values where nothing need be asked.

    With it the place (row, column, from 1) of the one value that is wanted of it; None where all are.

    Raises Fault where it asks for nothing that can be asked. The text of a waiting or faulty cell among its arguments is passed on.
    """
    count = max(len(table(argument)) * len(table(argument)[0]) for argument in arguments)
    if count > MOST_IN_RANGE:
        raise Fault(FAULT + phrase(language, "large", count=count, most=MOST_IN_RANGE))
    reader = Reader(language)
    return getattr(reader, function)(*arguments), reader.picked


def question(kind: str, body: dict) -> Question:
    return Question(kind, json.dumps(body, ensure_ascii=False, sort_keys=True))


def table(value) -> tuple:
    """Every argument as rows of cells."""
    return value if isinstance(value, tuple) and value and isinstance(value[0], tuple) else ((value,),)


def colours(value) -> list:
    """Rows of cells that should be colours; three numbers in a row are L, a and b."""
    rows = table(value)
    if all(len(row) == 3 and all(isinstance(cell, float) for cell in row) for row in rows):
        return [[{"lab": dict(zip("lab", row))}] for row in rows]
    return rows


def is_empty(value) -> bool:
    return value is None or (isinstance(value, str) and not value.strip())


def plain(number: float) -> str:
    return str(int(number)) if number == int(number) else repr(number)


def number_or_blank(value):
    return "" if value is None else value


# A number that was written as text, in either language.
_NUMBER = re.compile(r"[-+]?\d{1,9}([.,]\d{0,9})?|[-+]?[.,]\d{1,9}")

# An amount with a decimal comma, at the beginning or after + or a colon. Three digits after it might be thousands: the service will ask.
_COMMA = re.compile(r"(^|[+:])(\s*\d+),(\d{1,2}|\d{4,9})(?=[\s:])")


def recipe_text(text: str) -> str:
    """A recipe with decimal points, for the service knows no others: "2,5 kelp" is "2.5 kelp" in every language of the sheet."""
    return _COMMA.sub(r"\1\2.\3", text)


def colour_text(text: str) -> str:
    """A colour as the service reads it; between semicolons a comma is a decimal comma: "lab:40,5;-12;20"."""
    return text.replace(",", ".").replace(";", ",") if text.strip().lower().startswith("lab:") and ";" in text else text
