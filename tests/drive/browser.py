"""A real browser without a window, driven over its own debugging line and read as a person reads.

    async with Browser(tmp_path) as browser:
        await browser.open("http://127.0.0.1:8000")
        await browser.wait_for("SHOE AT")

The pages of text are drawn on a canvas. What stands on it is read the way a person would take it
along: everything is marked with the mouse and copied.
"""

from __future__ import annotations

import asyncio
import base64
import re
import shutil
import time
from collections.abc import Iterator
from contextlib import suppress
from itertools import count
from pathlib import Path
from types import TracebackType
from typing import Any

import aiohttp

PROGRAMS = ("chromium", "chromium-browser", "google-chrome")
PATIENCE = 20.0
"""Seconds to wait for a page before a test fails; a loaded machine needs far less."""
LOOK_AGAIN = 0.1
OPTIONS = (
    "--headless=new",
    "--no-sandbox",
    "--no-first-run",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--disable-extensions",
    "--disable-background-networking",
    "--disable-component-update",
    "--enable-unsafe-swiftshader",
    "--remote-debugging-port=0",
    "about:blank",
)
COPIED = """(() => {
    const taken = new DataTransfer();
    const copying = new ClipboardEvent("copy", {clipboardData: taken, bubbles: true});
    document.querySelector(".xterm").dispatchEvent(copying);
    return taken.getData("text/plain");
})()"""
SHIFT = 8


def program() -> str:
    """Return the browser of this machine, or nothing."""
    return next((found for name in PROGRAMS if (found := shutil.which(name))), "")


class Browser:
    """One browser with one page."""

    def __init__(self, folder: Path, size: tuple[int, int] = (1000, 620)) -> None:
        self.asked: list[str] = []
        """Every address that the page asked for."""
        self._folder, self._size = folder / "browser", size
        self._numbers: Iterator[int] = count(1)

    async def __aenter__(self) -> Browser:
        self._process = await asyncio.create_subprocess_exec(
            program(),
            f"--user-data-dir={self._folder}",
            f"--window-size={self._size[0]},{self._size[1]}",
            *OPTIONS,
            stdout=asyncio.subprocess.DEVNULL,
            stderr=asyncio.subprocess.DEVNULL,
        )
        self._session = aiohttp.ClientSession()
        self._line = await self._session.ws_connect(await self._page(), max_msg_size=0)
        for domain in ("Page", "Network", "Runtime"):
            await self._ask(f"{domain}.enable")
        return self

    async def __aexit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        with suppress(Exception):
            await asyncio.wait_for(self._ask("Browser.close"), 5)
        await self._session.close()
        try:
            await asyncio.wait_for(self._process.wait(), 5)
        except TimeoutError:
            self._process.kill()
            await self._process.wait()

    async def open(self, address: str) -> None:
        """Load a page."""
        await self._ask("Page.navigate", url=address)

    async def text(self) -> str:
        """Return what stands on the page of text: mark it all, copy it."""
        width, height = self._size
        ends = (("mousePressed", 1, 1), ("mouseMoved", width - 2, height - 2),
                ("mouseReleased", width - 2, height - 2))  # fmt: skip
        for what, x, y in ends:
            await self._ask(
                "Input.dispatchMouseEvent", type=what, x=x, y=y, button="left", buttons=1,
                clickCount=1, modifiers=SHIFT,
            )  # fmt: skip
        return str(await self.told(COPIED) or "")

    async def told(self, script: str) -> Any:
        """Return what a script in the page gives; nothing while the page is not there."""
        answer = await self._ask("Runtime.evaluate", expression=script, returnByValue=True)
        return answer.get("result", {}).get("value")

    async def press(self, key: str, code: str, number: int, text: str = "") -> None:
        """Press a key, named as browsers name it."""
        named = {"key": key, "code": code, "windowsVirtualKeyCode": number}
        typed = {"text": text} if text else {}
        await self._ask("Input.dispatchKeyEvent", type="keyDown", **named, **typed)
        await self._ask("Input.dispatchKeyEvent", type="keyUp", **named)

    async def picture(self) -> bytes:
        """Return the page as a picture."""
        answer = await self._ask("Page.captureScreenshot", format="png")
        return base64.b64decode(answer["data"])

    async def wait_for(self, wanted: str | re.Pattern[str]) -> re.Match[str]:
        """Wait until the page of text holds a text or matches a pattern; return the match."""
        pattern = re.compile(re.escape(wanted)) if isinstance(wanted, str) else wanted
        deadline, seen = time.monotonic() + PATIENCE, ""
        while time.monotonic() < deadline:
            seen = await self.text()
            found = pattern.search(seen)
            if found:
                return found
            await asyncio.sleep(LOOK_AGAIN)
        raise AssertionError(f"the page never showed {pattern.pattern}; it shows\n{seen}")

    async def _page(self) -> str:
        """Return the address of the debugging line of the first page."""
        port = await self._port()
        deadline = time.monotonic() + PATIENCE
        while time.monotonic() < deadline:
            async with self._session.get(f"http://127.0.0.1:{port}/json/list") as answer:
                pages = [one for one in await answer.json() if one["type"] == "page"]
            if pages:
                return str(pages[0]["webSocketDebuggerUrl"])
            await asyncio.sleep(LOOK_AGAIN)
        raise AssertionError("the browser never had a page")

    async def _port(self) -> str:
        written = self._folder / "DevToolsActivePort"
        deadline = time.monotonic() + PATIENCE
        while time.monotonic() < deadline:
            lines = written.read_text().splitlines() if written.exists() else []
            if len(lines) > 1:
                return lines[0]
            assert self._process.returncode is None, "the browser ended at once"
            await asyncio.sleep(LOOK_AGAIN)
        raise AssertionError("the browser never opened its debugging line")

    async def _ask(self, method: str, **given: Any) -> dict[str, Any]:
        number = next(self._numbers)
        await self._line.send_json({"id": number, "method": method, "params": given})
        while True:
            heard = await self._line.receive_json(timeout=PATIENCE)
            if heard.get("method") == "Network.requestWillBeSent":
                self.asked.append(heard["params"]["request"]["url"])
            if heard.get("method") == "Network.webSocketCreated":
                self.asked.append(heard["params"]["url"])
            if heard.get("id") == number:
                assert "error" not in heard, f"{method}: {heard['error']}"
                result: dict[str, Any] = heard["result"]
                return result
