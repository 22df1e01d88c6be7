"""The service, asked over HTTP/1.1 with JSON. Nothing is sent to any other address: no proxy is looked for and no redirection followed."""

import http.client
import json
import time
import urllib.parse

CONNECT_SECONDS = 3
MOST_BYTES = 128 << 20
GATEWAY_TIMEOUT = 504


class Unreachable(Exception):
    """Nothing that answers is there now; it may be later."""


class TooMuch(Exception):
    """It was too much to answer in time; less may not be."""


class Refused(Exception):
    """Something answers, and does not want what was asked."""


class Service:
    """One service at one address."""

    def __init__(self, address: str):
        parts = urllib.parse.urlsplit(address.strip())
        if parts.scheme not in ("http", "https") or not parts.hostname or parts.path.strip("/") or parts.query:
            raise ValueError(address)
        port = parts.port or (443 if parts.scheme == "https" else 80)
        self.address = f"{parts.scheme}://{parts.netloc}"
        self.host = f"{parts.hostname}:{port}"
        self._kind = http.client.HTTPSConnection if parts.scheme == "https" else http.client.HTTPConnection
        self._place = (parts.hostname, port)

    def post(self, path: str, body: str, seconds: float) -> dict:
        """Sends what is JSON already; the answer must be here, all of it, within so many seconds."""
        return self._ask("POST", path, body.encode(), seconds)

    def get(self, path: str, seconds: float) -> dict:
        return self._ask("GET", path, None, seconds)

    def _ask(self, method, path, body, seconds):
        connection = self._kind(*self._place, timeout=CONNECT_SECONDS)
        until = time.monotonic() + seconds
        try:
            connection.connect()
            connection.sock.settimeout(seconds)
            connection.request(method, path, body, {"Content-Type": "application/json"} if body is not None else {})
            response = connection.getresponse()
            content = self._read(response, connection, until)
            status = response.status
        except TimeoutError:
            raise Unreachable("timeout") from None
        except (OSError, http.client.HTTPException) as fault:
            raise Unreachable(str(fault) or type(fault).__name__) from None
        finally:
            connection.close()
        return self._answer(status, content)

    @staticmethod
    def _read(response, connection, until):
        """All of it, but never for longer than was agreed: a service that drips would hold a plain read for ever."""
        pieces, size = [], 0
        while True:
            left = until - time.monotonic()
            if left <= 0:
                raise TimeoutError
            if connection.sock is not None:
                connection.sock.settimeout(left)
            piece = response.read1(1 << 16)
            if not piece:
                return b"".join(pieces)
            pieces.append(piece)
            size += len(piece)
            if size > MOST_BYTES:
                raise http.client.HTTPException(f"more than {MOST_BYTES} bytes")

    @staticmethod
    def _answer(status, content):
        try:
            answer = json.loads(content)
        except ValueError:
            answer = None
        if status == 200 and isinstance(answer, dict):
            return answer
        message = words_of(answer) if isinstance(answer, dict) and "message" in answer else f"HTTP {status}"
        if status == GATEWAY_TIMEOUT:
            raise TooMuch(message)
        raise Unreachable(message) if status >= 500 else Refused(message)


def words_of(error) -> str:
    """What the service says is wrong, without the names that its fields have."""
    violations = [violation["description"] for detail in error.get("details", ()) for violation in detail.get("fieldViolations", ())]
    return " ".join(violations) or error.get("message") or "?"
