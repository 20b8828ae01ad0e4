"""Bytes of text that other programs saved in other letters than UTF-8."""

from __future__ import annotations

WESTERN = "cp1252"  # as Western editors and spreadsheets of old save


def each_line_in_utf8(data: bytes) -> bytes:
    """The same, but for lines that are not UTF-8: they are taken for what older editors of the West save."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return data
    return b"\n".join(map(_in_utf8, data.split(b"\n")))


def _in_utf8(line: bytes) -> bytes:
    try:
        line.decode("utf-8")
        return line
    except UnicodeDecodeError:
        return line.decode(WESTERN, errors="replace").encode("utf-8")
