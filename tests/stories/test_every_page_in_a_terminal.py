"""One run in a real terminal: every page in other sizes, keys faster than it answers, a paste, a clean leave.

Every key on every page is pressed in tests/tui/desk/test_keys.py, without a terminal and so a hundred times
as fast.
"""

from __future__ import annotations

import re
import shutil
import time
from pathlib import Path

from terminal import Terminal
from tests.samples.places import GARDENS

from leafturn_tui.pages import pages

ON = "2027-04-19"
AHEAD = ("w", "\x1b", "\x1b[B")  # typed ahead on each page
SIZES = ((60, 20), (30, 10), (29, 9), (160, 50), (80, 24))
PASTED = "nettle " * 285 + "ends"  # 1999 letters
# DEC private modes (xterm control sequences): mouse, pasting, the other screen.
MODES = (1000, 1002, 1003, 1006, 2004, 1049)
SETTING = re.compile(rb"\x1b\[\?(\d+)([hl])")


def test_every_page_other_sizes_a_paste_and_a_clean_leave(tmp_path: Path) -> None:
    garden = Path(shutil.copytree(GARDENS / "ten_lines", tmp_path / "ten-lines"))
    with Terminal([str(garden), "--on", ON], env={"ESCDELAY": "1"}) as terminal:
        terminal.wait_for("What needs hands this week?")
        for number, digit in enumerate(pages()):
            columns, lines = SIZES[number % len(SIZES)]
            for key in (digit, *AHEAD):
                terminal.child.send(key)
                time.sleep(0.003)  # so that Esc is a key of its own
            terminal.screen.resize(lines, columns)
            terminal.child.setwinsize(lines, columns)
        terminal.screen.resize(24, 80)
        terminal.child.setwinsize(24, 80)
        time.sleep(0.05)
        terminal.child.send("1")
        terminal.wait_for("What needs hands this week?")
        assert terminal.child.isalive()
        terminal.child.send(f"n\x1b[200~{PASTED}\x1b[201~\r")
        terminal.wait_for("noted:")
        assert PASTED in "".join(file.read_text() for file in (garden / "journal").glob("*.toml"))
        assert terminal.leave() == 0
        assert b"Traceback" not in terminal.bytes
        now = {int(mode): on for mode, on in SETTING.findall(terminal.bytes)}
        assert [mode for mode in MODES if now.get(mode) == b"h"] == [], "each is put back as it was"
        assert now[25] == b"h", "the cursor is shown"
