"""Gathers the questions of many cells, sends them together from a thread of its own, and tells the cells when there is something to show.

Two lanes, so that quick questions never wait behind long searches. A service that is not there is asked again by itself, ever more seldom,
for as long as some cell wants the answer.
"""

import collections
import threading
import time

from .cells import Question
from .phrases import FAULT, WAITING, phrase
from .service import Refused, Service, TooMuch, Unreachable, words_of

# What is asked within this time of each other goes together ...
GATHER_SECONDS = 0.03
# ... but nobody waits longer than this for a slow sheet.
GATHER_AT_MOST_SECONDS = 1.0
# The service's own limit for one request, and less of what it has to search for: it gives one request 60 seconds.
MOST_QUICK = 200
MOST_SEARCHES = 100
SEARCHES = ("match", "ramp")
QUICK_SECONDS = 20
SEARCH_SECONDS = 75
RETRY_SECONDS = (2, 4, 8, 15, 30)
MOST_KEPT = 50_000


class Desk:
    """All questions of this office, and what is known of their answers."""

    def __init__(self, service: Service, language: str, changed, seconds: float = 0):
        """`changed` is called, from another thread, with the questions of which something new is known.

        `seconds` is the longest wait for one request; 0: 20 for quick questions, 75 for searches.
        """
        self.service = service
        self.language = language
        self.requests = 0
        self._changed = changed
        self._lock = threading.Lock()
        self._known = collections.OrderedDict()  # Question -> answer (dict) or fault (str)
        self._wanted = collections.Counter()
        self._lanes = (_Lane(self, MOST_QUICK, seconds or QUICK_SECONDS), _Lane(self, MOST_SEARCHES, seconds or SEARCH_SECONDS))

    def want(self, question: Question) -> None:
        """Some cell wants this answer, until it says `unwant`."""
        with self._lock:
            self._wanted[question] += 1
            known = question in self._known
            if known:
                self._known.move_to_end(question)
        if not known:
            self._lane(question).add(question)

    def unwant(self, question: Question) -> None:
        with self._lock:
            self._wanted[question] -= 1
            if self._wanted[question] <= 0:
                del self._wanted[question]

    def look(self, question: Question):
        """The answer (dict), or the text that a cell shows instead of it."""
        with self._lock:
            known = self._known.get(question)
        return known if known is not None else self._lane(question).instead

    def forget(self) -> None:
        """Everything wanted is asked anew: the shelf may have changed."""
        with self._lock:
            self._known.clear()
            wanted = list(self._wanted)
        for question in wanted:
            self._lane(question).add(question)
        for lane in self._lanes:
            lane.hurry()
        self._changed(wanted)

    def close(self) -> None:
        for lane in self._lanes:
            lane.close()

    def still_wanted(self, questions):
        with self._lock:
            return [question for question in questions if question in self._wanted]

    def learn(self, answers: dict) -> None:
        with self._lock:
            self._known.update(answers)
            if len(self._known) > MOST_KEPT:
                for question in [old for old in self._known if old not in self._wanted][:len(self._known) - MOST_KEPT]:
                    del self._known[question]
        self._changed(list(answers))

    def tell(self, questions) -> None:
        self._changed(list(questions))

    def _lane(self, question):
        return self._lanes[question.kind in SEARCHES]


class _Lane:
    """Questions of one kind of patience, in one queue with one thread."""

    def __init__(self, desk: Desk, most: int, seconds: float):
        self._desk = desk
        self._seconds = seconds
        self._most = self._most_ever = most
        self._queue = {}  # Question -> None, in the order of asking
        self._condition = threading.Condition()
        self._thread = None
        self._closed = False
        self._hurried = False
        self._last = 0.0
        self.instead = WAITING + phrase(desk.language, "asking")

    def add(self, question: Question) -> None:
        with self._condition:
            self._queue[question] = None
            self._last = time.monotonic()
            if self._thread is None and not self._closed:
                self._thread = threading.Thread(target=self._work, name="mixengine", daemon=True)
                self._thread.start()
            elif len(self._queue) == 1:
                self._condition.notify()

    def close(self) -> None:
        with self._condition:
            self._closed = True
            self._condition.notify()

    def hurry(self) -> None:
        """Asks at once, should the lane be resting after a failure."""
        with self._condition:
            self._hurried = True
            self._condition.notify()

    def _work(self):
        failures = 0
        while True:
            batch = self._next()
            if batch is None:
                return
            try:
                answers = self._ask(batch)
                failures = 0
                self.instead = WAITING + phrase(self._desk.language, "asking")
                self._most = min(2 * self._most, self._most_ever)
                self._desk.learn(answers)
            except TooMuch as fault:
                if len(batch) > 1:
                    self._again(batch)
                else:
                    self._desk.learn({batch[0]: FAULT + str(fault)})
                self._most = max(1, len(batch) // 2)
            except Unreachable as fault:
                wait = RETRY_SECONDS[min(failures, len(RETRY_SECONDS) - 1)]
                failures += 1
                self._again(batch)
                self._missing(str(fault))
                if not self._rest(wait):
                    return

    def _next(self):
        """The next batch: what is asked in quick succession goes together. None when the office ends."""
        with self._condition:
            while not self._queue and not self._closed:
                self._condition.wait()
            begin = time.monotonic()
            while not self._closed and len(self._queue) < self._most:
                now = time.monotonic()
                left = min(self._last + GATHER_SECONDS, begin + GATHER_AT_MOST_SECONDS) - now
                if left <= 0:
                    break
                self._condition.wait(left)
            if self._closed:
                return None
            batch = self._desk.still_wanted(self._queue)[:self._most]
            if len(batch) < self._most:
                self._queue.clear()
            for question in batch:
                self._queue.pop(question, None)
            return batch

    def _ask(self, batch):
        if not batch:
            return {}
        # Bodies are JSON already; they are put together as text.
        parts = (f'{{"key":"{i}","{question.kind}":{question.body}}}' for i, question in enumerate(batch))
        self._desk.requests += 1
        try:
            response = self._desk.service.post("/v1/batch", '{"items":[' + ",".join(parts) + "]}", self._seconds)
        except Refused as fault:
            text = FAULT + phrase(self._desk.language, "refused", address=self._desk.service.address, why=fault)
            return dict.fromkeys(batch, text)

        answers = {}
        try:
            for question, answer in zip(batch, response["answers"], strict=True):
                error = answer.get("error")
                answers[question] = answer[question.kind] if error is None else FAULT + words_of(error)
        except (KeyError, ValueError, AttributeError, TypeError):
            text = FAULT + phrase(self._desk.language, "refused", address=self._desk.service.address, why="?")
            return dict.fromkeys(batch, text)
        return answers

    def _again(self, questions):
        with self._condition:
            self._queue = {**dict.fromkeys(questions), **self._queue}

    def _missing(self, why):
        """Every cell that waits shows why."""
        service = self._desk.service
        if why == "timeout":
            why = phrase(self._desk.language, "silence", seconds=int(self._seconds))
        before = self.instead
        self.instead = FAULT + phrase(self._desk.language, "unreachable", address=service.address, host=service.host, why=why)
        with self._condition:
            waiting = list(self._queue)
        if before != self.instead:
            self._desk.tell(waiting)

    def _rest(self, seconds):
        until = time.monotonic() + seconds
        with self._condition:
            self._hurried = False
            while not self._closed and not self._hurried and time.monotonic() < until:
                self._condition.wait(until - time.monotonic())
            return not self._closed
