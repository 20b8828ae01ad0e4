"""The line to an archive: what is asked, by which means, and the one deadline for all of it."""

from __future__ import annotations

import contextlib
import queue
import socket
import ssl
import threading
from collections.abc import Callable
from typing import NoReturn, TypeVar
from urllib.parse import urlsplit

from leafturn.base.faults import Fault, Unreadable
from leafturn.base.value import Value

T = TypeVar("T")

ASK_AGAIN = "Ask again later: what came is kept, and it goes on from there."


class Wanted(Value):
    """One file that an archive is asked for.

    Parameters
    ----------
    url : str
        Its address; https only.
    types : tuple of str
        Media types it may come as; an empty one stands for none said.
    most_bytes : int
        It is refused if it is larger.
    what : str
        In a sentence: "the list of stations".
    kept_as : str
        What it is kept as where its address changes from day to day; empty: by its address.
    """

    url: str
    types: tuple[str, ...]
    most_bytes: int
    what: str
    kept_as: str = ""

    @property
    def host(self) -> str:
        """The archive's name, for sentences."""
        return urlsplit(self.url).hostname or self.url

    def refuse(self, message: str, hint: str = "Nothing was changed.") -> NoReturn:
        """End with one sentence.

        Raises
        ------
        Unreadable
        """
        raise Unreadable(Fault(file=self.host, line=None, message=message, hint=hint))


class Line(Value, eq=False):
    """How archives are reached, and until when.

    Parameters
    ----------
    tls : ssl.SSLContext
        Whose certificates are believed.
    clock : callable
        Seconds that only grow.
    pause : callable
        Waits so many seconds.
    until : float [s]
        The deadline by `clock`, one for all that is asked.
    agent : str
        Who asks, told to the archive.
    report : callable
        Is called as a file comes, with the file, the bytes that came and all its bytes.
    """

    tls: ssl.SSLContext
    clock: Callable[[], float]
    pause: Callable[[float], None]
    until: float
    agent: str
    report: Callable[[Wanted, int, int], None]

    @property
    def left(self) -> float:
        """Seconds to the deadline; none after it."""
        return max(0.0, self.until - self.clock())

    def in_time(self, wanted: Wanted, work: Callable[[Call], T]) -> T:
        """What `work` gives, if it does so before the deadline.

        It runs beside, so that neither a name that is looked up for ever nor an archive that sends a letter
        a minute holds the program up; after the deadline it changes nothing any more.

        Raises
        ------
        Unreadable
            After the deadline.
        Exception
            What `work` raises.
        """
        call, ended = Call(), queue.SimpleQueue[tuple[T | None, BaseException | None]]()

        def run() -> None:
            try:
                ended.put((work(call), None))
            except BaseException as error:
                ended.put((None, error))

        threading.Thread(target=run, name=wanted.what, daemon=True).start()
        try:
            result, error = ended.get(timeout=self.left)
        except queue.Empty:
            call.give_up()
            self.too_slow(wanted)
        except BaseException:  # the user has had enough
            call.give_up()
            raise
        if error is not None:
            raise error
        return result  # type: ignore[return-value]

    def too_slow(self, wanted: Wanted) -> NoReturn:
        """End because the deadline is over."""
        wanted.refuse(f"{wanted.what} did not come in the time given.", ASK_AGAIN)


class GivenUp(Exception):
    """Nobody waits for this call any more."""


class Call:
    """One call to an archive, which whoever waits for it may give up."""

    def __init__(self) -> None:
        self._lock, self._over = threading.Lock(), False
        self._socket: socket.socket | None = None

    def over(self, opened: socket.socket) -> None:
        """Say by which socket the call goes."""
        with self._lock:
            self._socket = opened

    def write(self, put: Callable[[], object]) -> None:
        """Do something that lasts, unless the call was given up.

        Raises
        ------
        GivenUp
        """
        with self._lock:
            if self._over:
                raise GivenUp
            put()

    def give_up(self) -> None:
        """Let nothing be written from now on, and end the call."""
        with self._lock:
            self._over = True
            if self._socket is not None:
                with contextlib.suppress(OSError):  # it has ended by itself
                    # that of TCP alone: what TLS would send before it might wait again
                    socket.socket.shutdown(self._socket, socket.SHUT_RDWR)
