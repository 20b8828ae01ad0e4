"""One file from an archive over https: whole and as announced, or not at all.

What has come lies in a part beside its mark, which says of which version of the file it is. An interrupted
transfer goes on from there, also in another run, where the archive allows it (RFC 9110, sections 13 and 14:
`Range` with `If-Range`); else it begins anew. An archive that is busy says when to ask again (`Retry-After`).
"""

from __future__ import annotations

import http.client
import ssl
from contextlib import closing
from email.utils import parsedate_to_datetime
from functools import partial
from io import FileIO
from typing import NoReturn
from urllib.parse import urljoin, urlsplit

from leafturn.base.value import Value
from leafturn.files.reasons import reason
from leafturn.weather.fetch.line import ASK_AGAIN, Call, Line, Wanted
from leafturn.weather.fetch.part import Part

CHUNK = 65_536
FRUITLESS_TRIES = 4  # in a row that brought nothing new
PAUSE = 2.0  # [s] before the first new try, twice as long before each that follows; guess, common practice
SILENCE = 30.0  # [s] without a byte, after which the line counts as cut; guess
MOST_REDIRECTS = 3
REDIRECTS = (301, 302, 303, 307, 308)
BUSY = (429, 503)


class Cut(Exception):
    """The transfer broke off; `pause` [s] is what the archive asks to wait, if it does."""

    def __init__(self, message: str, pause: float | None = None) -> None:
        super().__init__(message)
        self.message, self.pause = message, pause


class Came(Value):
    """A file that came whole: what names its version, for asking whether there is a newer one."""

    validator: str


def transfer(wanted: Wanted, part: Part, line: Line, known: str = "") -> Came | None:
    """Bring a file to `part.path`.

    Parameters
    ----------
    wanted : Wanted
    part : Part
        Where it is gathered.
    line : Line
    known : str
        Names the version that is at hand; empty if none is.

    Returns
    -------
    Came or None
        None if the version at hand is still the newest.

    Raises
    ------
    Unreadable
        If it cannot be had, with one sentence.
    """
    fruitless = 0
    while True:
        before = part.size
        try:
            return line.in_time(wanted, lambda call: _asked(wanted, part, line, known, call))
        except Cut as why:
            fruitless = 0 if part.size > before else fruitless + 1
            pause = PAUSE * 2 ** max(0, fruitless - 1) if why.pause is None else why.pause
            if fruitless >= FRUITLESS_TRIES:
                wanted.refuse(why.message, ASK_AGAIN)
            if pause >= line.left:
                _asked_to_wait(wanted, why)
                line.too_slow(wanted)
            line.pause(pause)


def _asked_to_wait(wanted: Wanted, why: Cut) -> None:
    if why.pause is not None:
        minutes = max(1, round(why.pause / 60))
        wanted.refuse(why.message, f"It asks for patience: ask again in {minutes} min.")


def _asked(wanted: Wanted, part: Part, line: Line, known: str, call: Call) -> Came | None:
    """Ask once."""
    try:
        return _followed(wanted, part, line, known, call)
    except (ssl.SSLError, ConnectionError, http.client.HTTPException) as why:
        raise Cut(f"it broke off while {wanted.what} came.") from why
    except TimeoutError as why:
        raise Cut(f"it was silent for {SILENCE:.0f} seconds while {wanted.what} came.") from why
    except OSError as why:
        wanted.refuse(f"{wanted.what} cannot be kept: {reason(why, writing=True)}.")


def _followed(wanted: Wanted, part: Part, line: Line, known: str, call: Call) -> Came | None:
    """Ask, and where the archive has moved the file, there, within the same host and over https."""
    url = wanted.url
    for _ in range(MOST_REDIRECTS + 1):
        with closing(_connected(wanted, url, line, call)) as connection:
            connection.request("GET", _path(url), headers=_headers(part, line, known))
            answer = connection.getresponse()
            if answer.status not in REDIRECTS:
                return _taken(answer, wanted, part, line, call)
        url = _sent_on(wanted, url, answer.getheader("Location") or "")
    wanted.refuse("it sends from address to address without end.")


def _sent_on(wanted: Wanted, url: str, location: str) -> str:
    try:
        there = urljoin(url, location)
        new, host = urlsplit(there), urlsplit(wanted.url).netloc
    except ValueError:
        wanted.refuse("it sends to an address that is none.")
    if new.scheme != "https" or new.netloc != host:
        wanted.refuse(f"it sends to {new.scheme}://{new.netloc}, which was not followed.")
    return there


def _connected(wanted: Wanted, url: str, line: Line, call: Call) -> http.client.HTTPSConnection:
    parts = urlsplit(url)
    if parts.scheme != "https" or parts.hostname is None:
        wanted.refuse("only https addresses are asked.")
    connection = http.client.HTTPSConnection(
        parts.hostname, parts.port, timeout=max(0.01, min(SILENCE, line.left)), context=line.tls
    )
    try:
        connection.connect()
    except ssl.SSLCertVerificationError:
        wanted.refuse("its certificate is not one that this machine trusts, so it was not asked.")
    except ssl.SSLError:
        raise
    except OSError:  # its name is not known, no way leads there, or nobody answers
        wanted.refuse("it cannot be reached. Is this machine online?")
    call.over(connection.sock)
    return connection


def _path(url: str) -> str:
    parts = urlsplit(url)
    return f"{parts.path or '/'}?{parts.query}" if parts.query else parts.path or "/"


def _headers(part: Part, line: Line, known: str) -> dict[str, str]:
    headers = {"User-Agent": line.agent, "Accept-Encoding": "identity", "Connection": "close"}
    if part.size and part.validator:
        headers |= {"Range": f"bytes={part.size}-", "If-Range": part.validator}
    elif known:
        headers["If-None-Match" if known.startswith('"') else "If-Modified-Since"] = known
    return headers


def _taken(
    answer: http.client.HTTPResponse, wanted: Wanted, part: Part, line: Line, call: Call
) -> Came | None:
    """What an answer brings."""
    status = answer.status
    if status == 304:
        return None
    if status in BUSY:
        raise Cut(f"it has too much to do (status {status}).", _retry_after(answer))
    if status >= 500:
        raise Cut(f"it has trouble of its own (status {status}).")
    if status == 416:  # the part is none of this file
        call.write(part.discard)
        raise Cut(f"it does not go on with {wanted.what}.")
    if status not in (200, 206):
        wanted.refuse(f"it refuses {wanted.what} (status {status}).")
    media = (answer.getheader("Content-Type") or "").partition(";")[0].strip().lower()
    if media not in wanted.types:
        shown = "a web page" if media == "text/html" else media or "something without a type"
        wanted.refuse(f"it sent {shown} in place of {wanted.what}.")
    if (answer.getheader("Content-Encoding") or "identity").lower() != "identity":
        wanted.refuse(f"it sent {wanted.what} packed, which was not asked for.")
    announced = _announced(answer, wanted, part, call)
    with part.path.open("ab", buffering=0) as file:
        _gathered(answer, wanted, announced, file, (line, call))
    if announced is not None and part.size != announced:
        raise Cut(f"of {wanted.what} {part.size} bytes came where {announced} were announced.")
    return Came(validator=part.validator)


def _announced(answer: http.client.HTTPResponse, wanted: Wanted, part: Part, call: Call) -> int | None:
    """How long the whole file will be; None where it comes in chunks, the last of which is marked.

    Where the answer is no sequel to the part, the part begins anew.
    """
    if answer.status == 206:
        begun, total = _range(answer.getheader("Content-Range") or "")
        if begun != part.size or total is None:
            call.write(part.discard)
            raise Cut(f"it goes on with {wanted.what} at the wrong place.")
    else:
        strong = answer.getheader("ETag") or ""
        validator = strong if strong.startswith('"') else answer.getheader("Last-Modified") or ""
        call.write(lambda: part.begin(validator))
        total = _count(answer.getheader("Content-Length") or "")
        if total is None and not answer.chunked:
            wanted.refuse(f"it does not say how long {wanted.what} is, so a cut would not be seen.")
    if total is not None and total > wanted.most_bytes:
        call.write(part.discard)
        _too_large(wanted)
    return total


def _too_large(wanted: Wanted) -> NoReturn:
    wanted.refuse(f"{wanted.what} is over {wanted.most_bytes // 1_000_000} MB, too large to be right.")


def _range(written: str) -> tuple[int | None, int | None]:
    """Where a part begins, and how long the whole is, from "bytes 100-199/400"."""
    span, _, total = written.removeprefix("bytes ").partition("/")
    return _count(span.partition("-")[0]), _count(total)


def _count(written: str) -> int | None:
    return int(written) if written.isdecimal() and len(written) < 16 else None


def _gathered(
    answer: http.client.HTTPResponse,
    wanted: Wanted,
    announced: int | None,
    file: FileIO,
    by: tuple[Line, Call],
) -> None:
    """Append what comes to the part."""
    line, call = by
    came = file.tell()
    while chunk := answer.read1(CHUNK):
        came += len(chunk)
        if came > wanted.most_bytes:
            _too_large(wanted)
        call.write(partial(file.write, chunk))
        line.report(wanted, came, announced or 0)


def _retry_after(answer: http.client.HTTPResponse) -> float | None:
    """Seconds that the archive asks to wait: a number, or a date beside its own date."""
    written = (answer.getheader("Retry-After") or "").strip()
    if written.isdecimal():
        return float(written)
    try:
        then, now = (parsedate_to_datetime(text) for text in (written, answer.getheader("Date") or ""))
        return max(0.0, (then - now).total_seconds())
    except (TypeError, ValueError):
        return None
