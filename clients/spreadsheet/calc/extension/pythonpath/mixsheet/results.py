"""What a call of a function shows, and how it changes while answers come in."""

from .cells import Cell, Fault, read_call
from .desk import Desk
from .phrases import WAITING, is_message


class Result:
    """The value of one call: the same for every cell that calls with the same arguments."""

    def __init__(self, desk: Desk, function: str, arguments: tuple, language: str):
        try:
            self._grid, self._picked = read_call(function, arguments, language)
        except Fault as fault:
            self._grid, self._picked = [[(str(fault),)]], None
        self._desk = desk
        self.questions = list(dict.fromkeys(entry.question for row in self._grid for entry in row if isinstance(entry, Cell)))

    def want(self) -> None:
        for question in self.questions:
            self._desk.want(question)

    def unwant(self) -> None:
        for question in self.questions:
            self._desk.unwant(question)

    def is_settled(self) -> bool:
        """Whether nothing of it is still being asked for the first time."""
        return not any(isinstance(seen := self._desk.look(question), str) and seen.startswith(WAITING) for question in self.questions)

    def value(self):
        """One value, or rows of values of equal length."""
        rows = [self._row(row) for row in self._grid]
        if len(self._grid) == 1 and len(self._grid[0]) == 1 and rows and isinstance(rows[0], _Rows):
            rows = rows[0].rows
        if len(rows) == 1 and len(rows[0]) == 1:
            return rows[0][0]
        width = max(len(row) for row in rows)
        # A message stands in every column of its row, so that it is seen whichever column is looked at.
        rows = tuple(tuple(row) if len(row) == width else tuple(row[:1] * width if is_message(row[0]) else (*row, *[""] * (width - len(row)))) for row in rows)
        if self._picked is None:
            return rows
        row, column = self._picked
        return rows[row - 1][column - 1] if row <= len(rows) and column <= width else ""

    def _row(self, entries):
        values = []
        for entry in entries:
            if isinstance(entry, Cell):
                answer = self._desk.look(entry.question)
                entry = (answer,) if isinstance(answer, str) else entry.read(answer)
                if entry and isinstance(entry[0], tuple):
                    return _Rows(entry)
            values += entry
        return values


class _Rows(list):
    """An answer that is several rows by itself."""

    def __init__(self, rows):
        super().__init__()
        self.rows = [list(row) for row in rows]
