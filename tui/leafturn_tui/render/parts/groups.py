"""Groups of sentences under titles."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

Groups = Sequence[tuple[str, Sequence[str]]]


def group_lines(groups: Groups) -> Iterator[str]:
    """Groups of sentences as indented lines."""
    for title, sentences in groups:
        if title and sentences:
            yield f"    {title}:"
        yield from (f"    {'    ' if title else ''}{sentence}" for sentence in sentences)
