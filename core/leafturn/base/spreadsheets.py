"""Texts in tables that a spreadsheet opens: none is taken for a formula, and each comes back as it was."""

from __future__ import annotations

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
"""What a cell that is reckoned begins with.

References
----------
OWASP, CSV Injection, https://owasp.org/www-community/attacks/CSV_Injection; the signs of full width: OWASP,
Web Security Testing Guide, Testing for CSV Injection.
"""
MARK = "'"


def marked(text: str) -> str:
    """A text as a cell: a mark stands before one that begins as a formula, or with the mark."""
    return MARK + text if text.startswith((*FORMULA_STARTS, MARK)) else text


def unmarked(cell: str) -> str:
    """The text of a cell that was `marked`."""
    return cell.removeprefix(MARK)
