"""Asking whoever typed a command, in a line."""

from __future__ import annotations

import sys

from leafturn_tui.safe_text import safe_text


def yes(question: str) -> bool:
    """Ask, and whether the answer is yes."""
    print(safe_text(question), end=" (y/n) ", flush=True)
    return sys.stdin.readline().strip().lower().startswith("y")


def sure(question: str, unasked: str) -> bool:
    """Ask where somebody is there to answer; else say the question, and what is done without an answer."""
    if sys.stdin.isatty():
        return yes(question)
    print(safe_text(f"{question} {unasked}"), file=sys.stderr)
    return True
