"""The functions of the add-in as Calc calls them."""

import uno
import unohelper
from com.sun.star.lang import XServiceInfo
from com.sun.star.sheet import ResultEvent, XVolatileResult
from com.sun.star.uno import RuntimeException
from mixengine import XCells

from mixsheet import office
from mixsheet.results import Result


class VolatileResult(unohelper.Base, XVolatileResult):
    """A result that Calc listens to: it changes when answers come in, and Calc calculates its cells again."""

    def __init__(self, board, key, result):
        self._board, self._key, self._result = board, key, result
        self.listeners = []
        result.want()

    def addResultListener(self, listener):
        self.listeners.append(listener)
        listener.modified(self._event())

    def removeResultListener(self, listener):
        if listener in self.listeners:
            self.listeners.remove(listener)
            if not self.listeners:
                self._board.drop(self._key, self)
                self._result.unwant()

    def questions(self):
        return self._result.questions

    def is_settled(self):
        return self._result.is_settled()

    def tell(self):
        event = self._event()
        for listener in list(self.listeners):
            try:
                listener.modified(event)
            except RuntimeException:  # its document was closed meanwhile
                self.removeResultListener(listener)

    def _event(self):
        value = self._result.value()
        return ResultEvent(self, uno.Any("[][]any", value) if isinstance(value, tuple) else value)


class Board:
    """The results that are shown somewhere in this office, and what each of them waits for."""

    def __init__(self, context):
        self._results = {}
        self._asking = {}  # Question -> results
        self._desk = office.desk(context, self._changed)

    def call(self, *key):
        """The result of a call: the same for the same arguments."""
        result = self._results.get(key)
        if result is None:
            result = VolatileResult(self, key, Result(self._desk, key[0], key[1:], self._desk.language))
            self._results[key] = result
            for question in result.questions():
                self._asking.setdefault(question, set()).add(result)
            office.wait_if_asked(result)
        return result

    def drop(self, key, result):
        """Forgets a result to which nobody listens any more."""
        if self._results.get(key) is result:
            del self._results[key]
        for question in result.questions():
            self._asking[question].discard(result)
            if not self._asking[question]:
                del self._asking[question]

    def _changed(self, questions):
        """Called from the desk's threads."""
        changed = {}
        for question in questions:
            changed.update(dict.fromkeys(self._asking.get(question, ())))
        for result in changed:
            result.tell()


# Calc makes an object for the functions more than once; what they show is one.
_board = None


class Cells(unohelper.Base, XCells, XServiceInfo):
    """All functions."""

    def __init__(self, context):
        global _board
        if _board is None:
            _board = Board(context)

    def hex(self, paints, parts, shelf):
        return _board.call("hex", paints, parts, shelf)

    def lab(self, paints, parts, shelf, row, column):
        return _board.call("lab", paints, parts, shelf, row, column)

    def ramp(self, through, steps, drops, shelf, row, column):
        return _board.call("ramp", through, steps, drops, shelf, row, column)

    def match(self, colour, most, drops, shelf, row, column):
        return _board.call("match", colour, most, drops, shelf, row, column)

    def glaze(self, paints, over, coats, medium, shelf):
        return _board.call("glaze", paints, over, coats, medium, shelf)

    def difference(self, first, second):
        return _board.call("difference", first, second)

    def words(self, colour):
        return _board.call("words", colour)

    def getImplementationName(self):
        return "mixengine.Cells"

    def supportsService(self, name):
        return name in self.getSupportedServiceNames()

    def getSupportedServiceNames(self):
        return ("mixengine.Cells", "com.sun.star.sheet.AddIn")


g_ImplementationHelper = unohelper.ImplementationHelper()
g_ImplementationHelper.addImplementation(Cells, "mixengine.Cells", ("mixengine.Cells", "com.sun.star.sheet.AddIn"))
