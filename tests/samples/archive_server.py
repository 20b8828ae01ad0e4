"""A local archive that misbehaves as it is told: https with a certificate of the tests, answers as raw bytes.

Each path has a list of answers, given in turn; the last one is given ever after. What was asked is kept in
`asked`, in order.
"""

from __future__ import annotations

import contextlib
import socketserver
import ssl
import threading
import time
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

import trustme


@dataclass
class Asked:
    """One request: its path and its headers in lower case."""

    path: str
    headers: dict[str, str]


Send = Callable[[bytes], None]
Answer = Callable[[Asked, Send], None]


@dataclass
class Archive:
    """A running server."""

    answers: dict[str, list[Answer]]
    tls: ssl.SSLContext
    address: str = ""
    asked: list[Asked] = field(default_factory=list)
    most_at_once: int = 0

    def paths(self) -> list[str]:
        return [one.path.partition("?")[0] for one in self.asked]


def reply(body: bytes, media: str = "text/plain", status: str = "200 OK", **headers: str) -> Answer:
    """A whole answer with its length; further headers with _ for -."""

    def answer(asked: Asked, send: Send) -> None:
        send(head(status, media, {"Content-Length": str(len(body))} | dashed(headers)) + body)

    return answer


def resumable(body: bytes, tag: str = '"v1"', cut_after: int | None = None) -> Answer:
    """An answer that goes on from where a part ends, as RFC 9110 tells; it breaks off after some bytes."""

    def answer(asked: Asked, send: Send) -> None:
        begun = 0
        span = asked.headers.get("range", "")
        if span and asked.headers.get("if-range") == tag:
            begun = int(span.removeprefix("bytes=").removesuffix("-"))
        rest = body[begun:]
        extra = {"Content-Length": str(len(rest)), "ETag": tag, "Accept-Ranges": "bytes"}
        if begun:
            extra["Content-Range"] = f"bytes {begun}-{len(body) - 1}/{len(body)}"
        status = "206 Partial Content" if begun else "200 OK"
        send(head(status, "text/plain", extra) + rest[:cut_after])

    return answer


def raw(*pieces: bytes, every: float = 0.0) -> Answer:
    """Pieces of bytes as they are, with a wait [s] after each."""

    def answer(asked: Asked, send: Send) -> None:
        for piece in pieces:
            send(piece)
            time.sleep(every)

    return answer


def head(status: str, media: str, headers: Mapping[str, str]) -> bytes:
    lines = [f"HTTP/1.1 {status}", f"Content-Type: {media}"] if media else [f"HTTP/1.1 {status}"]
    return ("\r\n".join([*lines, *(f"{k}: {v}" for k, v in headers.items())]) + "\r\n\r\n").encode()


def dashed(headers: Mapping[str, str]) -> dict[str, str]:
    return {name.replace("_", "-"): value for name, value in headers.items()}


@contextlib.contextmanager
def archive(answers: Mapping[str, Answer | list[Answer]]) -> Iterator[Archive]:
    """Run a server on this machine while the block lasts."""
    authority = trustme.CA()
    served, believed = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER), ssl.create_default_context()
    authority.issue_cert("localhost").configure_cert(served)
    authority.configure_trust(believed)
    lists = {path: list(one) if isinstance(one, list) else [one] for path, one in answers.items()}
    running = Archive(answers=lists, tls=believed)
    with _Server(("localhost", 0), _handler(running, served)) as server:
        running.address = f"https://localhost:{server.server_address[1]}"
        threading.Thread(target=server.serve_forever, args=(0.01,), daemon=True).start()
        try:
            yield running
        finally:
            server.shutdown()


class _Server(socketserver.ThreadingTCPServer):
    daemon_threads, block_on_close, allow_reuse_address = True, False, True


def _handler(running: Archive, tls: ssl.SSLContext) -> type[socketserver.BaseRequestHandler]:
    at_once = [0]

    class Handler(socketserver.BaseRequestHandler):
        def handle(self) -> None:
            with contextlib.suppress(OSError), tls.wrap_socket(self.request, server_side=True) as stream:
                at_once[0] += 1
                running.most_at_once = max(running.most_at_once, at_once[0])
                try:
                    asked = _read(stream)
                    running.asked.append(asked)
                    found = running.answers.get(asked.path.partition("?")[0], [reply(b"", status="404 None")])
                    (found.pop(0) if len(found) > 1 else found[0])(asked, stream.sendall)
                finally:
                    at_once[0] -= 1

    return Handler


def _read(stream: ssl.SSLSocket) -> Asked:
    data = b""
    while b"\r\n\r\n" not in data and (more := stream.recv(65_536)):
        data += more
    first, *lines = data.decode("latin-1").split("\r\n\r\n")[0].split("\r\n")
    headers = dict(line.split(": ", 1) for line in lines)
    return Asked(path=first.split(" ")[1], headers={k.lower(): v for k, v in headers.items()})
