"""WebKitGTK from Debian's packages, driven over the W3C WebDriver protocol: the engine of most players' phones."""

import json
import os
import shutil
import socket
import subprocess
import time
import urllib.error
import urllib.request
from pathlib import Path
from typing import Any, Self

# The key under which the protocol names an element: https://www.w3.org/TR/webdriver2/#elements.
_ELEMENT = "element-6066-11e4-a52e-4f735466cecf"
_BROWSERS = ("lib/*/webkit2gtk-4.*/MiniBrowser", "libexec/webkit2gtk-4.*/MiniBrowser")


def missing_for_webkit() -> str:
    """What this machine lacks, in words, or nothing."""
    if not shutil.which("WebKitWebDriver") or not _browser():
        return "no WebKitGTK (Debian: apt install webkit2gtk-driver)"
    return "" if shutil.which("Xvfb") else "no Xvfb to show it on (Debian: apt install xvfb)"


def _browser() -> str:
    return next((str(found) for pattern in _BROWSERS for found in sorted(Path("/usr").glob(pattern))[::-1]), "")


class WebKit:
    """One window of one browser that has never been anywhere."""

    def __init__(self, home: Path) -> None:
        self._home = home
        self._processes: list[subprocess.Popen[str]] = []
        self._base = ""

    def __enter__(self) -> Self:
        try:
            self._open()
        except BaseException:
            self._end()
            raise
        return self

    def __exit__(self, *_: object) -> None:
        try:
            self._call("DELETE", "")
        finally:
            self._end()

    def _open(self) -> None:
        show = ["Xvfb", "-displayfd", "1", "-screen", "0", "800x900x24", "-nolisten", "tcp"]
        screen = subprocess.Popen(show, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        self._processes.append(screen)
        assert screen.stdout
        display = screen.stdout.readline().strip()
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        # As root the browser's own sandbox refuses to start; nothing but our pages is opened.
        more = {
            "DISPLAY": f":{display}",
            "HOME": str(self._home),
            "XDG_CACHE_HOME": str(self._home / "cache"),
            "XDG_DATA_HOME": str(self._home / "data"),
            "LIBGL_ALWAYS_SOFTWARE": "1",
            "NO_AT_BRIDGE": "1",
            "WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS": "1",
        }
        driver = subprocess.Popen(
            ["WebKitWebDriver", f"--port={port}"], env={**os.environ, **more}, stderr=subprocess.DEVNULL, text=True
        )
        self._processes.append(driver)
        root = f"http://127.0.0.1:{port}"
        options = {"binary": _browser(), "args": ["--automation"]}
        asked = {"capabilities": {"alwaysMatch": {"webkitgtk:browserOptions": options}}}
        for _ in range(100):
            try:
                session = _ask("POST", f"{root}/session", asked)
                break
            except urllib.error.URLError:
                time.sleep(0.1)
        else:
            raise RuntimeError("WebKitWebDriver does not answer")
        self._base = f"{root}/session/{session['sessionId']}"

    def _end(self) -> None:
        for process in reversed(self._processes):
            process.terminate()
            process.wait(20)
            if process.stdout:
                process.stdout.close()

    def _call(self, method: str, path: str, body: object = None) -> Any:  # noqa: ANN401 - as the protocol has it
        return _ask(method, self._base + path, body)

    def goto(self, address: str) -> None:
        """Open a page and wait until it has loaded."""
        self._call("POST", "/url", {"url": address})

    def run(self, script: str, *given: object) -> Any:  # noqa: ANN401 - whatever the script returns
        """What a script's `return` gives; a promise is waited for."""
        return self._call("POST", "/execute/sync", {"script": script, "args": list(given)})

    def text(self, selector: str) -> str:
        """The words of the first element found, "" where there is none."""
        return str(self.run("const e = document.querySelector(arguments[0]); return e ? e.textContent : ''", selector))

    def _element(self, selector: str) -> str:
        found = self._call("POST", "/element", {"using": "css selector", "value": selector})
        return f"/element/{found[_ELEMENT]}"

    def click(self, selector: str) -> None:
        """Tap the first element found."""
        self._call("POST", f"{self._element(selector)}/click", {})

    def type(self, selector: str, words: str) -> None:
        """Type into the first element found, key by key."""
        self._call("POST", f"{self._element(selector)}/value", {"text": words})


def _ask(method: str, address: str, body: object) -> Any:  # noqa: ANN401 - as the protocol has it
    data = None if body is None else json.dumps(body).encode()
    request = urllib.request.Request(address, method=method, data=data)  # noqa: S310 - this machine's own driver
    # No proxy of the environment has anything to do with it.
    opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))
    try:
        with opener.open(request, timeout=120) as answer:
            return json.load(answer)["value"]
    except urllib.error.HTTPError as refused:
        with refused:
            raise RuntimeError(refused.read().decode()) from None
