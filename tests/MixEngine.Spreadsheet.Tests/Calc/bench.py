"""What the tests of the Calc add-in work with: the real service, a real headless office with the extension in a clean profile, and the command."""

import http.client
import json
import os
import pathlib
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import time

ROOT = pathlib.Path(os.environ.get("MIXENGINE_ROOT") or pathlib.Path(__file__).resolve().parents[3])
CALC = ROOT / "clients/spreadsheet/calc"
COAST = ROOT / "clients/cli/Demo/coast.csv"
WAITING = "#MIX? "
FAULT = "#MIX! "
PATIENCE = 60

sys.path.insert(0, str(CALC / "extension/pythonpath"))


def program(project: str, name: str) -> str:
    """A built program of this solution, in the configuration that the tests were built in."""
    folder = ROOT / ".artifacts/bin" / project
    configuration = os.environ.get("MIXENGINE_CONFIGURATION", "debug")
    return str(next(path for path in (folder / each / name for each in (configuration, "debug", "release")) if path.exists()))


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


class RealService:
    """The service as a process of its own, with the invented coast on its shelf."""

    def __init__(self, folder: pathlib.Path):
        self.folder = folder
        self.port = free_port()
        self.address = f"http://127.0.0.1:{self.port}"
        self.socket = folder / "service.sock"
        self._process = None

    def start(self, port=None):
        self._process = subprocess.Popen(
            [program("MixEngine.Service", "MixEngine.Service"), "--data", self.folder / "data", "--socket", self.socket, "--http", f"127.0.0.1:{port or self.port}"],
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        until(lambda: accepts(port or self.port), "the service accepts")

    def stop(self):
        if self._process is not None:
            self._process.terminate()
            self._process.wait(30)
            self._process = None

    def pause(self):
        """Still there, and silent."""
        self._process.send_signal(signal.SIGSTOP)

    def go_on(self):
        self._process.send_signal(signal.SIGCONT)

    def import_coast(self):
        command(self, "shelf", "import", str(COAST))

    def post(self, path, body):
        return request(self.port, "POST", path, body)

    def get(self, path):
        return request(self.port, "GET", path, None)


def request(port, method, path, body):
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=PATIENCE)
    connection.request(method, path, json.dumps(body) if body is not None else None, {"content-type": "application/json"})
    response = connection.getresponse()
    answer = json.loads(response.read())
    connection.close()
    return response.status, answer


def command(service, *arguments, expect=(0, 2)):
    """What the command line prints, asked of the same service."""
    done = subprocess.run(
        [program("MixEngine.Cli", "mixengine"), *arguments, "--server", f"unix:{service.socket}"], capture_output=True, text=True, timeout=PATIENCE)
    assert done.returncode in expect, done.stderr
    return done.stdout


class CountingProxy:
    """Stands between the sheet and the service, counts the requests, and keeps what was sent."""

    def __init__(self, target_port):
        self.requests = []
        self._target = target_port
        self._listener = socket.create_server(("127.0.0.1", 0))
        self.port = self._listener.getsockname()[1]
        self.address = f"http://127.0.0.1:{self.port}"
        threading.Thread(target=self._accept, daemon=True).start()

    def _accept(self):
        while True:
            try:
                client, _ = self._listener.accept()
            except OSError:
                return
            threading.Thread(target=self._serve, args=(client,), daemon=True).start()

    def _serve(self, client):
        with client:
            try:
                upstream = socket.create_connection(("127.0.0.1", self._target))
            except OSError:
                return
            with upstream:
                threading.Thread(target=self._copy, args=(upstream, client), daemon=True).start()
                first = True
                while piece := self._read(client):
                    if first:
                        self.requests.append(piece.split(b"\r\n", 1)[0].decode())
                        first = False
                    upstream.sendall(piece)

    @staticmethod
    def _copy(source, target):
        try:
            while piece := source.recv(1 << 16):
                target.sendall(piece)
            target.shutdown(socket.SHUT_WR)
        except OSError:
            pass

    @staticmethod
    def _read(client):
        try:
            return client.recv(1 << 16)
        except OSError:
            return b""

    def close(self):
        self._listener.close()


class Office:
    """A headless office with a profile of its own, in which only this extension is installed."""

    def __init__(self, folder: pathlib.Path, address: str, language: str = "", with_extension: bool = True, by_command: bool = False, **environment):
        self._profile = folder
        self._pipe = f"mixengine-{os.getpid()}-{time.monotonic_ns()}"
        # Where an office of this home looks by itself.
        profile = folder / ".config/libreoffice/4"
        user = profile.as_uri()
        shared = folder / "shared"
        profile.mkdir(parents=True)
        shared.mkdir()
        self._environment = {
            **os.environ, "UNO_SHARED_PACKAGES_CACHE": shared.as_uri(), "MIXENGINE_SHEET_SERVICE": address, "MIXENGINE_SHEET_MESSAGES": str(folder / "messages.txt"),
            "PYTHONDONTWRITEBYTECODE": "1", "SAL_USE_VCLPLUGIN": "svp", **environment}
        if language:
            _set_language(profile, language)
        if by_command:
            subprocess.run([program("MixEngine.Cli", "mixengine"), "sheet", "install"], check=True, env={**self._environment, "HOME": str(folder)}, stdout=subprocess.DEVNULL)
        elif with_extension:
            package = folder / "mixengine.oxt"
            subprocess.run([sys.executable, CALC / "build.py", package], check=True, env=self._environment)
            as_root = ["--shared"] if os.geteuid() == 0 else []
            subprocess.run(["unopkg", "add", *as_root, package, f"-env:UserInstallation={user}"], check=True, env=self._environment,
                           stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        self.messages = folder / "messages.txt"
        self._process = subprocess.Popen(
            ["soffice", "--headless", "--norestore", "--nologo", f"--accept=pipe,name={self._pipe};urp", f"-env:UserInstallation={user}"],
            env=self._environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True)
        self.context = self._connect()
        self.desktop = self.create("com.sun.star.frame.Desktop")

    def create(self, name, *arguments):
        manager = self.context.ServiceManager
        return manager.createInstanceWithArgumentsAndContext(name, arguments, self.context) if arguments else manager.createInstanceWithContext(name, self.context)

    def new(self):
        return self.desktop.loadComponentFromURL("private:factory/scalc", "_blank", 0, (value("Hidden", True),))

    def open(self, path):
        return self.desktop.loadComponentFromURL(pathlib.Path(path).as_uri(), "_blank", 0, (value("Hidden", True),))

    def dispatch(self, document, url):
        self.create("com.sun.star.frame.DispatchHelper").executeDispatch(document.CurrentController.Frame, url, "", 0, ())

    def close(self):
        try:
            self.desktop.terminate()
        except Exception:  # it is gone, or going
            pass
        try:
            self._process.wait(20)
        except subprocess.TimeoutExpired:
            os.killpg(self._process.pid, signal.SIGKILL)
            raise AssertionError("the office did not end") from None

    def _connect(self):
        import uno

        local = uno.getComponentContext()
        resolver = local.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", local)
        found = []

        def try_it():
            try:
                found.append(resolver.resolve(f"uno:pipe,name={self._pipe};urp;StarOffice.ComponentContext"))
            except Exception:
                return False
            return True

        until(try_it, "the office answers")
        return found[0]


def _set_language(user, language):
    """The office's locale, as its options dialog would store it."""
    (user / "user").mkdir()
    (user / "user/registrymodifications.xcu").write_text(f"""<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Setup/L10N"><prop oor:name="ooSetupSystemLocale" oor:op="fuse"><value>{language}</value></prop></item>
<item oor:path="/org.openoffice.Office.Linguistic/General"><prop oor:name="UILocale" oor:op="fuse"><value>{language.split('-')[0]}</value></prop></item>
</oor:items>
""", encoding="utf-8")


def value(name, content):
    from com.sun.star.beans import PropertyValue

    each = PropertyValue()
    each.Name, each.Value = name, content
    return each


def accepts(port) -> bool:
    try:
        socket.create_connection(("127.0.0.1", port), timeout=1).close()
    except OSError:
        return False
    return True


def until(condition, what, patience=PATIENCE):
    """Waits for something, and fails with its name."""
    end = time.monotonic() + patience
    while not condition():
        assert time.monotonic() < end, f"not within {patience} s: {what}"
        time.sleep(0.02)


def values(cells):
    return [list(row) for row in cells.getDataArray()]


def settled(cells):
    """The values of cells once none of them waits."""
    until(lambda: not any(isinstance(each, str) and each.startswith(WAITING) for row in values(cells) for each in row), "no cell waits")
    return values(cells)


def temporary_folder(test) -> pathlib.Path:
    folder = pathlib.Path(tempfile.mkdtemp(prefix="mix-"))
    test.addClassCleanup(shutil.rmtree, folder, True)
    return folder
