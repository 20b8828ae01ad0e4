"""The sentences of what is told (`samples/told.py`), and what a sentence must not do.

for sentence in sentences_of(texts(almanac)):
    assert not slips(sentence, almanac.on)
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Iterator
from itertools import chain

from leafturn.almanac import Almanac
from leafturn.base.day_words import SHORT_MONTHS
from leafturn.tasks.model import Job

MOST_WORDS = 30
_MONTH = "|".join(SHORT_MONTHS)
_DAY = rf"\d{{1,2}} (?:{_MONTH})(?: \d{{4}})?"
_SOURCE = re.compile(r"[;:] from ")  # behind a fact: who wrote it down, and where
_ENDS = re.compile(r"(?<=[.?!;])\s+|\n")
_EARLY = rf"(\d{{1,2}}(?: (?:{_MONTH}))?(?: \d{{4}})?)"
_RANGES = (
    re.compile(rf"between {_EARLY} and ({_DAY})"),
    re.compile(rf"\({_EARLY}-({_DAY})"),
    re.compile(rf"about {_EARLY} to ({_DAY})"),
    re.compile(rf"(?:today|now) to ({_DAY})"),
)
_OF_A_YEAR = re.compile(rf"\d{{1,2}} (?:{_MONTH}) (\d{{4}}) \([^)]*\)")  # the bracket is of that year too
# Other scales of chance than "3 of 10", "hardly ever", "nearly always".
_OTHER_SCALE = re.compile(
    r"\b(\d+ in 10\b|1 in (?!20)\d|about even|nearly sure|even odds|odds are|chances are)"
)
_NEVER_IN_RANGE = re.compile(rf"(or never|never\)|{_DAY}[^.;,]* never)")
_WRITE = re.compile(r"\btasks? = .*")  # an example of what to write names jobs as files do
_ID = re.compile(r"\([a-z0-9-]+:[a-z-]+(:\d{4}(:\d+)?)?\)|\b[a-z0-9-]+:[a-z-]+:\d{4}\b")
# Words of reckoning that no reader should have to read twice, and a sum of nothing.
_PUT_AWAY = re.compile(
    r"(?:closed|ended) about [^.]*if not yet|versions? of (this|the) year|strays? by|reach: none"
    r"|would be there|which flowers of|\b[Ss]afe(?:ly|ty)?\b"
)
_AS_IN_CODE = re.compile(r"\['|\{'|(?<=\w )None\b|\b(?:True|nan|datetime)\b|\bobject at\b")
_DIGITS = re.compile(r"\d\.\d{3,}(?![\da-z])|\de[+-]\d\d|(?<![\d.])-0(?:\.0)? C")
_NOTE_ID = re.compile(
    r"\b\d{4}-\d\d-\d\d\.\d+\.[0-9a-z]+\b"
)  # of which one in two hundred ends in digits alone
_OF_WHOM = re.compile(
    r"(?:Bloom|Full bloom|Picking|Leaf-out) of ([\w-]+) (began|begins|came|comes|ends|ended)"
)


def sentences_of(*told: Iterable[str]) -> Iterator[str]:
    """The sentences of texts, each once."""
    seen: set[str] = set()
    for text in chain.from_iterable(told):
        for sentence in _ENDS.split(_SOURCE.split(text)[0]):
            said = sentence.strip()
            if said and said not in seen:
                seen.add(said)
                yield said


def slips(sentence: str, on: dt.date | None, names: frozenset[str] = frozenset()) -> list[str]:
    """What is wrong in a sentence: nothing, where it is as it should be.

    Papers are read on other days than that of asking: of them `on` is None, and a bound may have come.
    """
    found = [
        word
        for word, wrong in (
            ("another scale of chance", _OTHER_SCALE.search(sentence)),
            ("never in a range", _NEVER_IN_RANGE.search(sentence)),
            ("an id", _ID.search(_WRITE.sub("", sentence))),
            ("words put away", _PUT_AWAY.search(sentence)),
            ("too many digits", _DIGITS.search(_NOTE_ID.sub("", sentence))),
            ("a lower bound that has come", on is not None and _past_bound(sentence, on)),
            ("a value as the code writes it", _AS_IN_CODE.search(sentence)),
            (f"{words_in(sentence, names)} words", words_in(sentence, names) > MOST_WORDS),
        )
        if wrong
    ]
    return found


def words_in(sentence: str, names: frozenset[str]) -> int:
    """Words of a sentence, a list of names counted as one; where a source is named it ends."""
    said = re.split(r"\bSources?: |The words are: |Write one of: ", sentence)[0]
    listed = re.sub(rf" (?:[\d.]+ m|{_DAY})(?=,|\.| *$)", "", re.sub(r" ?\([^()]*\)", "", said))
    words = re.split(r"\s+", listed.strip())
    count, within = 0, False
    for word in words:
        is_name = word.strip(",.;:") in names
        if not (is_name and within):
            count += 1
        within = is_name and word.endswith(",")
    return count


def _past_bound(sentence: str, on: dt.date) -> bool:
    """Whether a range begins on or before the day of asking and ends after it."""
    if _RANGES[-1].search(sentence):
        return True
    sentence = _OF_A_YEAR.sub(lambda told: "" if int(told[1]) > on.year else told[0], sentence)
    for early, late in (pair for ranges in _RANGES[:-1] for pair in ranges.findall(sentence)):
        last = _date(late, on)
        parts = early.split()
        first = _date(early if len(parts) > 1 else f"{early} {late.split()[1]}", last)
        if first <= on <= last:
            return True
    return False


def _date(text: str, near: dt.date) -> dt.date:
    number, month, *year = text.split()
    return dt.date(int(year[0]) if year else near.year, SHORT_MONTHS.index(month) + 1, int(number))


def another_days(job: Job, almanac: Almanac) -> str:
    """The sentence of a job that names a plant it is not done to; empty if it names none."""
    for said in job.why:
        for name, _ in _OF_WHOM.findall(said):
            if almanac.garden.plant(name) and name not in (job.plant, *job.plants):
                return said
    return ""
