"""The one function through which every string of a user reaches a screen, a pipe or a printed page.

Garden files, journals, helper names and file names are typed by people or made by other programs.
A raw escape sequence in a plant's name would be carried out by the terminal, a right-to-left mark
would reverse the rest of a line, and a lone carriage return would overprint it. Here such
characters become one visible mark each, so that nothing is carried out and nothing hides.
"""

from __future__ import annotations

import unicodedata

from leafturn.base.patterns import pattern

MARK = "\N{REPLACEMENT CHARACTER}"
ELLIPSIS = "…"
BASE_FOR_LONE_MARKS = "\N{DOTTED CIRCLE}"
MARKS_ON_ONE_LETTER = 3  # pointed Hebrew needs three; taller stacks only overdraw other lines

# Line ends of every kind: CR LF, LF, CR, VT, FF, NEL, and Unicode's line and paragraph separators.
_LINE_END = pattern("\r\n|[\n\r\v\f\x85\u2028\u2029]")

# Characters of no width that the Unicode database does not class as controls or formats:
# joiners, fillers and variation selectors (Default_Ignorable_Code_Point, Unicode 15, UAX 44).
_UNSEEN = pattern(
    "[\u034f\u115f\u1160\u17b4\u17b5\u180b-\u180f\u3164\uffa0\ufe00-\ufe0f\U000e0000-\U000e0fff]"
)
_PLAIN = pattern(r"[ -~]*")
_HIDDEN_CATEGORIES = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}


def safe_text(text: str, *, newline: str = " ", limit: int | None = None) -> str:
    """Make a string harmless to show, losing as little of it as possible.

    Parameters
    ----------
    text : str
        Any string at all.
    newline : str
        What each line end becomes; give "\\n" where several lines are wanted.
    limit : int, optional
        The most characters wanted; a longer text is cut and ends in an ellipsis.

    Returns
    -------
    str
        Without control, bidirectional, zero-width and surrogate characters (each shown as U+FFFD),
        tabs as one space, letters in composed form with at most three marks on each.
    """
    if limit is not None and len(text) > 4 * limit + 64:
        text = text[: 4 * limit + 64]  # no use cleaning what is cut off anyway
    if not _PLAIN.fullmatch(text):
        text = _cleaned(text, newline)
    if limit is not None and len(text) > limit:
        text = text[: max(limit - 1, 0)] + ELLIPSIS
    return text


def _cleaned(text: str, newline: str) -> str:
    lines = (_clean_line(line) for line in _LINE_END.split(text))
    return newline.join(lines)


def _clean_line(line: str) -> str:
    line = _UNSEEN.sub(MARK, line.replace("\t", " "))
    line = "".join(MARK if unicodedata.category(c) in _HIDDEN_CATEGORIES else c for c in line)
    return _hold_marks(unicodedata.normalize("NFC", line))


def _hold_marks(line: str) -> str:
    """Keep combining marks on their own letter and few enough to stay within the line."""
    if line.isascii():
        return line
    kept: list[str] = []
    stacked = MARKS_ON_ONE_LETTER
    for at, character in enumerate(line):
        if unicodedata.category(character) not in ("Mn", "Me"):
            stacked = 0
        elif at == 0:
            kept.append(BASE_FOR_LONE_MARKS)
            stacked = 1
        else:
            stacked += 1
            if stacked > MARKS_ON_ONE_LETTER:
                continue
        kept.append(character)
    return "".join(kept)


def without_controls(text: str) -> str:
    """A text as it may be kept on one line: blanks for line ends and tabs, no other control characters."""
    return "".join(" " if c.isspace() else c for c in text if c.isspace() or unicodedata.category(c) != "Cc")


def one_mark_each(text: str) -> str:
    """`safe_text` of a line being typed: as many characters as it has, so that the cursor is where it was.

    Characters that hide, and marks beyond those that one letter can carry, become one visible mark each.
    """
    if _PLAIN.fullmatch(text):
        return text
    kept = ""
    stacked = MARKS_ON_ONE_LETTER
    for c in text:
        stacked = stacked + 1 if unicodedata.category(c) in ("Mn", "Me") else 0
        hides = unicodedata.category(c) in _HIDDEN_CATEGORIES or _UNSEEN.match(c)
        kept += MARK if hides or stacked > MARKS_ON_ONE_LETTER else c
    return kept
