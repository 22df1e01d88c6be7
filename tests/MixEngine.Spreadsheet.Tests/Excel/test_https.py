"""The add-in for Excel as the service hands it out: over HTTPS, with the certificate that was named."""

import http.client
import json
import pathlib
import ssl
import subprocess
import tempfile
import unittest

from Calc import bench


class HttpsTest(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = bench.temporary_folder(cls)
        cls.certificate, cls.key = cls.folder / "cert.pem", cls.folder / "key.pem"
        subprocess.run(
            ["openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "2", "-subj", "/CN=localhost", "-addext", "subjectAltName=DNS:localhost",
             "-keyout", cls.key, "-out", cls.certificate], check=True, capture_output=True)
        cls.site = bench.ROOT / "clients/spreadsheet/excel/site"

    def service(self, *arguments):
        folder = pathlib.Path(tempfile.mkdtemp(dir=self.folder))
        return [bench.program("MixEngine.Service", "MixEngine.Service"), "--data", folder / "data", "--socket", folder / "s.sock", *arguments]

    def test_files_and_calls_have_one_origin(self):
        port = bench.free_port()
        process = subprocess.Popen(self.service("--https", f"127.0.0.1:{port}", "--certificate", self.certificate, "--certificate-key", self.key, "--excel", self.site),
                                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        self.addCleanup(process.wait)
        self.addCleanup(process.terminate)
        bench.until(lambda: bench.accepts(port), "the service accepts")

        context = ssl.create_default_context(cafile=self.certificate)

        def ask(method, path, body=None):
            connection = http.client.HTTPSConnection("localhost", port, context=context, timeout=30)
            connection.request(method, path, body, {"content-type": "application/json"} if body else {})
            response = connection.getresponse()
            answer = response.status, response.getheader("content-type"), response.read()
            connection.close()
            return answer

        for name, kind in (("addin.html", "text/html"), ("manifest.xml", "text/xml"), ("icon.png", "image/png")):
            status, content_type, content = ask("GET", f"/excel/{name}")
            self.assertEqual((200, (self.site / name).read_bytes()), (status, content))
            self.assertTrue(content_type.startswith(kind))
        for name in ("/excel/", "/excel/nothing.js", "/excel/../s.sock", "/excel/%2e%2e/data/mixengine.db", "/data/mixengine.db"):
            self.assertEqual(404, ask("GET", name)[0], name)
        status, _, content = ask("POST", "/v1/batch", json.dumps({"items": [{"key": "a", "words": {"color": {"text": "#c03020"}}}]}))
        self.assertEqual(200, status)
        self.assertIn("red", json.loads(content)["answers"][0]["words"]["color"]["words"])

    def test_faulty_options_are_told(self):
        for arguments, words in (
            (["--https", "127.0.0.1:0"], "--https needs --certificate and --certificate-key"),
            (["--https", "127.0.0.1:0", "--certificate", self.key, "--certificate-key", self.key], "cannot be used"),
            (["--https", "0.0.0.0:7443", "--certificate", self.certificate, "--certificate-key", self.key], "there is none that holds"),
            (["--https", "127.0.0.1:0", "--certificate", self.certificate, "--certificate-key", self.key, "--excel", "/nowhere"], "npm run build"),
            (["--excel", self.site], "served over HTTPS"),
        ):
            done = subprocess.run(self.service(*arguments), capture_output=True, text=True, timeout=bench.PATIENCE)
            self.assertEqual(1, done.returncode, done.stderr)
            self.assertIn(words, done.stderr)


if __name__ == "__main__":
    unittest.main()
