"""A real browser without a window, spoken to through two pipes by the DevTools protocol: no library, no network port.

https://chromedevtools.github.io/devtools-protocol/ : each message is JSON with a zero byte after it.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from base64 import b64decode
from pathlib import Path
from select import select
from time import monotonic
from typing import Any

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
_WAIT = 60.0
_FLAGS = (
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    "--no-default-browser-check",
    "--mute-audio",
    "--hide-scrollbars",
    "--remote-debugging-pipe",
)
_JOIN = """
import os, sys
from fcntl import F_DUPFD, fcntl
for number, pipe in [(number, fcntl(int(given), F_DUPFD, 10)) for number, given in zip((3, 4), sys.argv[1:3])]:
    os.dup2(pipe, number)
    os.close(pipe)
os.execv(sys.argv[3], sys.argv[3:])
"""
"""Gives the browser its pipes as files 3 and 4, where the protocol wants them."""


def find_browser() -> str | None:
    """Return the path of a browser of this family, or None."""
    return next((found for name in NAMES if (found := shutil.which(name))), None)


class Headless:
    """One page of a running browser. ``events`` are all that it told unasked."""

    def __init__(self, browser: str, profile: Path) -> None:
        to_browser, self._out = os.pipe()
        self._in, from_browser = os.pipe()
        flags = [browser, *_FLAGS, f"--user-data-dir={profile}", "about:blank"]
        joined = [sys.executable, "-c", _JOIN, str(to_browser), str(from_browser), *flags]
        environment = {**os.environ, "HOME": str(profile), "DBUS_SESSION_BUS_ADDRESS": "disabled:"}
        self._process = subprocess.Popen(
            joined,
            pass_fds=(to_browser, from_browser),
            env=environment,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        os.close(to_browser)
        os.close(from_browser)
        self._number = 0
        self._rest = b""
        self.events: list[dict[str, Any]] = []
        self._session = ""
        try:
            self._begin()
        except BaseException:
            self.close()
            raise

    def _begin(self) -> None:
        target = self.call("Target.createTarget", url="about:blank")["targetId"]
        self._session = self.call("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Network", "Runtime", "Log"):
            self.call(f"{domain}.enable")

    def call(self, method: str, **values: Any) -> dict[str, Any]:
        """Return what the browser answers to one command."""
        self._number += 1
        message: dict[str, Any] = {"id": self._number, "method": method, "params": values}
        if self._session:
            message["sessionId"] = self._session
        os.write(self._out, json.dumps(message).encode() + b"\0")
        while True:
            answer = self._read()
            if answer.get("id") == self._number:
                assert "error" not in answer, f"{method}: {answer['error']}"
                result: dict[str, Any] = answer["result"]
                return result
            self.events.append(answer)

    def open(self, url: str, width: int, height: int) -> None:
        """Show a page in a window of this many CSS pixels."""
        self.call("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=True)
        self.events.clear()
        answer = self.call("Page.navigate", url=url)
        assert "errorText" not in answer, answer["errorText"]
        while not any(event.get("method") == "Page.loadEventFired" for event in self.events):
            self.events.append(self._read())

    def value(self, script: str) -> Any:
        """Return what a script finds in the page; the page itself may run none."""
        answer = self.call("Runtime.evaluate", expression=script, returnByValue=True)
        assert "exceptionDetails" not in answer, answer["exceptionDetails"]
        return answer["result"].get("value")

    def picture(self, path: Path, *, whole: bool = False) -> None:
        """Write what is seen as a PNG; ``whole`` for all of the page."""
        answer = self.call("Page.captureScreenshot", format="png", captureBeyondViewport=whole)
        path.write_bytes(b64decode(answer["data"]))

    def requests(self) -> list[str]:
        """Return the address of everything asked for since the page was opened."""
        sent = [event for event in self.events if event.get("method") == "Network.requestWillBeSent"]
        return [event["params"]["request"]["url"] for event in sent]

    def complaints(self) -> list[str]:
        """Return what the browser logged against the page."""
        logged = [event for event in self.events if event.get("method") == "Log.entryAdded"]
        return [event["params"]["entry"]["text"] for event in logged]

    def close(self) -> None:
        """End the browser that was started here."""
        os.close(self._out)
        os.close(self._in)
        self._process.terminate()
        try:
            self._process.wait(10)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait(10)

    def _read(self) -> dict[str, Any]:
        end = monotonic() + _WAIT
        while b"\0" not in self._rest:
            ready, _, _ = select([self._in], [], [], max(0.0, end - monotonic()))
            assert ready, "the browser does not answer"
            part = os.read(self._in, 1 << 20)
            assert part, "the browser ended"
            self._rest += part
        message, _, self._rest = self._rest.partition(b"\0")
        answer: dict[str, Any] = json.loads(message)
        return answer
