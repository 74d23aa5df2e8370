"""A headless Chromium spoken to through a pipe: opens one page, measures it, photographs it, prints it."""

from __future__ import annotations

import base64
import fcntl
import json
import os
import shutil
import signal
import time
from pathlib import Path

NAMES = ("chromium", "chromium-browser", "google-chrome")
FLAGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--remote-debugging-pipe",
)


def browser_path() -> str | None:
    """Where a Chromium stands, or None."""
    return next((found for name in NAMES if (found := shutil.which(name))), None)


class Browser:
    """One browser with one tab. requests: every address that the tab asked for."""

    def __init__(self, profile: Path) -> None:
        to_read, self._write = os.pipe()
        self._read, to_write = os.pipe()
        log = os.open(profile.parent / "browser.log", os.O_WRONLY | os.O_CREAT, 0o600)
        # the browser reads from 3 and writes to 4: what it is given must lie above them
        given = [fcntl.fcntl(one, fcntl.F_DUPFD, 10) for one in (to_read, to_write, log)]
        path = str(browser_path())
        self._process = os.posix_spawn(
            path,
            [path, *FLAGS, f"--user-data-dir={profile}", "about:blank"],
            dict(os.environ),
            file_actions=[(os.POSIX_SPAWN_DUP2, one, aim) for one, aim in zip(given, (3, 4, 2), strict=True)],
        )
        for one in (to_read, to_write, log, *given):
            os.close(one)
        self._buffer = b""
        self._number = 0
        self._seen: list[str] = []
        self.requests: list[str] = []
        target = self.send("Target.createTarget", url="about:blank")["targetId"]
        self._session = self.send("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Network", "Log"):
            self.send(f"{domain}.enable")

    def send(self, method: str, **params: object) -> dict:
        """Ask for something and wait for its answer, keeping the events that come before it."""
        self._number += 1
        message = {"id": self._number, "method": method, "params": params}
        if hasattr(self, "_session"):
            message["sessionId"] = self._session
        os.write(self._write, json.dumps(message).encode() + b"\0")
        while (told := self._next()).get("id") != self._number:
            self._event(told)
        if "error" in told:
            raise RuntimeError(f"{method}: {told['error']}")
        return told["result"]

    def _next(self) -> dict:
        while b"\0" not in self._buffer:
            piece = os.read(self._read, 65536)
            if not piece:
                raise RuntimeError("the browser has gone")
            self._buffer += piece
        whole, _, self._buffer = self._buffer.partition(b"\0")
        return json.loads(whole)

    def _event(self, told: dict) -> None:
        self._seen.append(told.get("method", ""))
        if told.get("method") == "Network.requestWillBeSent":
            self.requests.append(told["params"]["request"]["url"])

    def open(self, page: Path, width: int, height: int = 800) -> None:
        """Open a page as a phone of that width would: CSS pixels, one to one."""
        self.send(
            "Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=2, mobile=width < 600
        )
        self._seen.clear()
        self.send("Page.navigate", url=page.as_uri())
        while "Page.loadEventFired" not in self._seen:
            self._event(self._next())

    def ask(self, expression: str) -> object:
        """The value of a JavaScript expression in the page."""
        return self.send("Runtime.evaluate", expression=expression, returnByValue=True)["result"].get("value")

    def photograph(self, to: Path) -> None:
        """The whole page as it stands, as PNG."""
        data = self.send("Page.captureScreenshot", format="png", captureBeyondViewport=True)["data"]
        to.write_bytes(base64.b64decode(data))

    def print_pdf(self, to: Path) -> None:
        """The page as it prints, on the paper that its own style asks for."""
        data = self.send("Page.printToPDF", preferCSSPageSize=True)["data"]
        to.write_bytes(base64.b64decode(data))

    def close(self) -> None:
        """Ask it to go; one that will not is ended."""
        os.write(self._write, json.dumps({"id": 0, "method": "Browser.close"}).encode() + b"\0")
        os.close(self._write)
        until = time.monotonic() + 20
        while os.waitpid(self._process, os.WNOHANG) == (0, 0):
            if time.monotonic() > until:
                os.kill(self._process, signal.SIGKILL)
            time.sleep(0.05)
        os.close(self._read)
