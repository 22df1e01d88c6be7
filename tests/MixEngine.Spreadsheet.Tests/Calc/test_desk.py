"""The desk with services that misbehave."""

import http.server
import json
import threading
import unittest

from . import bench
from mixsheet.cells import question
from mixsheet.desk import Desk
from mixsheet.phrases import FAULT
from mixsheet.service import Service

KELP = question("predict", {"recipe": {"text": "kelp"}})
HEAD = b"HTTP/1.1 200 OK\r\nContent-Type: application/json\r\n"


class Misbehaving:
    """An HTTP server that answers every request in one given way."""

    def __init__(self, answer):
        self.paths = []
        outer = self

        class Handler(http.server.BaseHTTPRequestHandler):
            def do_POST(self):
                outer.paths.append(self.path)
                body = self.rfile.read(int(self.headers["Content-Length"]))
                answer(self.wfile, json.loads(body))
                self.close_connection = True

            def log_message(self, *arguments):
                pass

        self._server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Handler)
        self.address = f"http://127.0.0.1:{self._server.server_port}"
        threading.Thread(target=self._server.serve_forever, daemon=True).start()

    def close(self):
        self._server.shutdown()
        self._server.server_close()


class DeskTest(unittest.TestCase):
    def ask(self, answer, seconds=5.0, questions=(KELP,)):
        server = Misbehaving(answer)
        self.addCleanup(server.close)
        desk = Desk(Service(server.address), "en", lambda changed: None, seconds)
        self.addCleanup(desk.close)
        for each in questions:
            desk.want(each)
        return desk, server

    def shows(self, desk, text):
        bench.until(lambda: text in str(desk.look(KELP)), f"{text!r} in {desk.look(KELP)!r}", 20)

    def test_an_answer_that_is_no_json_is_named(self):
        desk, _ = self.ask(lambda out, _: out.write(HEAD + b"\r\n<html>"))
        self.shows(desk, "does not answer sheets")

    def test_an_answer_of_another_shape_is_named(self):
        for body in (b"[]", b"{}", b'{"answers": []}', b'{"answers": [7]}', b'{"answers": [{"key": "0"}]}', b'{"answers": null}'):
            desk, _ = self.ask(lambda out, _, body=body: out.write(HEAD + b"\r\n" + body))
            self.shows(desk, FAULT)

    def test_a_redirection_is_not_followed(self):
        elsewhere = Misbehaving(lambda out, _: None)
        self.addCleanup(elsewhere.close)
        desk, _ = self.ask(lambda out, _: out.write(f"HTTP/1.1 307 Temporary Redirect\r\nLocation: {elsewhere.address}/\r\nContent-Length: 0\r\n\r\n".encode()))
        self.shows(desk, "HTTP 307")
        self.assertEqual([], elsewhere.paths)

    def test_a_service_that_drips_is_given_up(self):
        def drip(out, _):
            out.write(HEAD + b"Content-Length: 1000\r\n\r\n")
            stop = threading.Event()
            for _ in range(100):
                try:
                    out.write(b" ")
                    out.flush()
                except OSError:
                    return
                stop.wait(0.1)

        desk, _ = self.ask(drip, seconds=0.6)
        self.shows(desk, "silent for")

    def test_what_is_too_much_at_once_is_asked_in_smaller_pieces(self):
        sizes = []

        def answer(out, body):
            sizes.append(len(body["items"]))
            if len(body["items"]) > 2:
                out.write(b'HTTP/1.1 504 Gateway Timeout\r\n\r\n{"code": 4, "message": "No answer within 60 seconds."}')
            else:
                answers = [{"key": item["key"], "predict": {"color": {"hex": "#4a4e26"}}} for item in body["items"]]
                out.write(HEAD + b"\r\n" + json.dumps({"answers": answers}).encode())

        others = [question("predict", {"recipe": {"text": f"{i} kelp"}}) for i in range(8)]
        desk, _ = self.ask(answer, questions=[*others, KELP])
        bench.until(lambda: all(isinstance(desk.look(each), dict) for each in [*others, KELP]), "all are answered")
        self.assertEqual(9, sizes[0])

    def test_what_is_too_much_alone_says_so(self):
        desk, _ = self.ask(lambda out, _: out.write(b'HTTP/1.1 504 Gateway Timeout\r\n\r\n{"code": 4, "message": "No answer within 60 seconds."}'))
        self.shows(desk, "No answer within 60 seconds.")

    def test_what_nobody_wants_any_more_is_not_asked(self):
        asked = []
        server = Misbehaving(lambda out, body: asked.append(body))
        self.addCleanup(server.close)
        desk = Desk(Service(server.address), "en", lambda changed: None)
        self.addCleanup(desk.close)
        desk.want(KELP)
        desk.unwant(KELP)
        desk.want(other := question("predict", {"recipe": {"text": "peat"}}))
        bench.until(lambda: asked, "asked")
        self.assertEqual(["peat"], [each["predict"]["recipe"]["text"] for each in asked[0]["items"]])
        self.assertNotEqual(KELP, other)

    def test_no_address_but_that_of_a_service_is_taken(self):
        for address in ("", "kelp", "ftp://127.0.0.1", "http://", "http://127.0.0.1:7400/somewhere", "http://127.0.0.1:7400?x"):
            with self.assertRaises(ValueError):
                Service(address)


if __name__ == "__main__":
    unittest.main()
