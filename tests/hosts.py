"""A static host that can be stopped, put under a path, updated and broken, and says what was asked of it."""

import functools
import http.server
import shutil
import threading
import time
from pathlib import Path
from typing import Self


class _Handler(http.server.SimpleHTTPRequestHandler):
    protocol_version = "HTTP/1.1"
    host: "Host"

    def __init__(self, *args: object, host: "Host", **options: object) -> None:
        self.host = host
        super().__init__(*args, **options)  # type: ignore[arg-type]

    def do_GET(self) -> None:
        """Answer as a static host does, but for what is broken."""
        path = self.path.partition("?")[0]
        self.host.asked.append(path)
        if self.host.slow_seconds:
            time.sleep(self.host.slow_seconds)
        if path.removeprefix(f"/{self.host.path}") in self.host.broken:
            self.send_error(404)
            return
        super().do_GET()

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:
        """Static hosts show the site's own page for unknown addresses."""
        page = self.host.folder / self.host.path / "404.html"
        if code != 404 or not page.is_file():
            super().send_error(code, message, explain)
            return
        body = page.read_bytes()
        self.send_response(404)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *_: object) -> None:
        """Say nothing."""


class _Server(http.server.ThreadingHTTPServer):
    daemon_threads = True
    allow_reuse_address = True

    def __init__(self, address: tuple[str, int], handler: object) -> None:
        self.open: set[object] = set()
        super().__init__(address, handler)  # type: ignore[arg-type]

    def process_request(self, request: object, client_address: object) -> None:  # type: ignore[override]
        self.open.add(request)
        super().process_request(request, client_address)  # type: ignore[arg-type]

    def shutdown_request(self, request: object) -> None:  # type: ignore[override]
        self.open.discard(request)
        super().shutdown_request(request)  # type: ignore[arg-type]

    def handle_error(self, *_: object) -> None:
        """A browser that goes away is no matter."""


class Host:
    """Serves `folder`; a site stands in it at `path`, "" or "a/b/"."""

    def __init__(self, folder: Path, path: str = "") -> None:
        self.folder, self.path = folder, path
        self.asked: list[str] = []
        self.broken: set[str] = set()
        self.slow_seconds = 0.0
        self._port = 0
        self._server: _Server | None = None
        (folder / path).mkdir(parents=True, exist_ok=True)

    @property
    def address(self) -> str:
        """Where the site is."""
        return f"http://127.0.0.1:{self._port}/{self.path}"

    def put(self, site: Path, path: str | None = None) -> None:
        """Lay a site there in place of the last one, as a deployment does."""
        place = self.folder / (self.path if path is None else path)
        shutil.rmtree(place, ignore_errors=True)
        shutil.copytree(site, place)

    def start(self) -> Self:
        """Answer from now on, always at the same address."""
        handler = functools.partial(_Handler, host=self, directory=str(self.folder))
        self._server = _Server(("127.0.0.1", self._port), handler)
        self._port = self._server.server_port
        threading.Thread(target=self._server.serve_forever, args=(0.05,), daemon=True).start()
        return self

    def stop(self) -> None:
        """No signal: connections that are kept open end too."""
        if self._server:
            self._server.shutdown()
            self._server.server_close()
            for connection in list(self._server.open):
                self._server.shutdown_request(connection)
            self._server = None

    def __enter__(self) -> Self:
        return self.start()

    def __exit__(self, *_: object) -> None:
        self.stop()
