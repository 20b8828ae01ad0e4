"""One file over https from archives that misbehave: whole, or one sentence."""

from __future__ import annotations

import socket
import ssl
import time
from pathlib import Path

import pytest
from tests.samples.archive_server import Answer, Archive, archive, head, raw, reply, resumable

from leafturn.base.faults import Unreadable
from leafturn.weather.fetch.line import Line, Wanted
from leafturn.weather.fetch.part import Part
from leafturn.weather.fetch.transfer import Came, transfer

BODY = b"".join(b"%06d one of many lines\n" % n for n in range(20_000))  # some 0.5 MB
WHOLE = head("200 OK", "text/plain", {"Content-Length": str(len(BODY)), "ETag": '"v1"'})


class Clock:
    """Real seconds, and pauses that cost none but are kept."""

    def __init__(self, seconds: float) -> None:
        self.paused: list[float] = []
        self.until = time.monotonic() + seconds

    def now(self) -> float:
        return time.monotonic() + sum(self.paused)


def bring(
    server: Archive, tmp_path: Path, *, seconds: float = 20.0, known: str = "", most: int = 1_000_000
) -> tuple[Came | None, bytes, Clock]:
    """Ask for /file; what came, its bytes, and the pauses made."""
    clock = Clock(seconds)
    line = Line(
        tls=server.tls, clock=clock.now, pause=clock.paused.append, until=clock.until, agent="tests/1",
        report=lambda wanted, came, of: None,
    )  # fmt: skip
    wanted = Wanted(
        url=f"{server.address}/file", types=("text/plain",), most_bytes=most, what="the list of stations"
    )
    part = Part(tmp_path / "file.part")
    came = transfer(wanted, part, line, known)
    return came, part.path.read_bytes() if part.path.exists() else b"", clock


def refusal(answer: Answer | list[Answer], tmp_path: Path, **how: float) -> str:
    with archive({"/file": answer}) as server, pytest.raises(Unreadable) as why:
        bring(server, tmp_path, **how)  # type: ignore[arg-type]
    return why.value.fault.sentence()


def test_a_file_comes_whole_and_the_archive_is_told_who_asks(tmp_path: Path) -> None:
    with archive({"/file": reply(BODY, ETag='"v1"')}) as server:
        came, data, clock = bring(server, tmp_path)
    assert came == Came(validator='"v1"')
    assert data == BODY
    assert clock.paused == []
    (asked,) = server.asked
    assert asked.headers["user-agent"] == "tests/1"
    assert asked.headers["accept-encoding"] == "identity"
    assert "range" not in asked.headers


def test_chunks_are_taken_and_a_cut_among_them_is_seen(tmp_path: Path) -> None:
    start = head("200 OK", "text/plain", {"Transfer-Encoding": "chunked"})
    with archive({"/file": raw(start, b"5\r\nhello\r\n", b"6\r\n world\r\n", b"0\r\n\r\n")}) as server:
        assert bring(server, tmp_path)[1] == b"hello world"
    said = refusal(raw(start, b"5\r\nhello\r\n", b"6\r\n wo"), tmp_path)
    assert said.startswith("localhost: it broke off while the list of stations came.")


def test_a_cut_transfer_goes_on_where_it_was_cut(tmp_path: Path) -> None:
    cut = resumable(BODY, cut_after=150_000)
    with archive({"/file": [cut, cut, cut, resumable(BODY)]}) as server:
        _, data, clock = bring(server, tmp_path)
    assert data == BODY
    assert [asked.headers.get("range") for asked in server.asked] == [
        None, "bytes=150000-", "bytes=300000-", "bytes=450000-",
    ]  # fmt: skip
    assert {asked.headers.get("if-range") for asked in server.asked[1:]} == {'"v1"'}
    assert clock.paused == [2.0, 2.0, 2.0]  # each try brought something


def test_a_transfer_goes_on_in_another_run(tmp_path: Path) -> None:
    with archive({"/file": [resumable(BODY, cut_after=200_000), reply(b"", status="404 Gone")]}) as server:
        with pytest.raises(Unreadable, match="refuses"):
            bring(server, tmp_path)
        server.answers["/file"] = [resumable(BODY)]
        assert bring(server, tmp_path)[1] == BODY
    assert server.asked[-1].headers["range"] == "bytes=200000-"


def test_a_file_that_changed_meanwhile_begins_anew(tmp_path: Path) -> None:
    other = BODY[::-1]
    with archive({"/file": [resumable(BODY, cut_after=200_000), resumable(other, tag='"v2"')]}) as server:
        came, data, _ = bring(server, tmp_path)
    assert data == other
    assert came == Came(validator='"v2"')


def test_an_archive_that_cannot_go_on_begins_anew(tmp_path: Path) -> None:
    weak = {"ETag": 'W/"v1"'}  # a weak tag does not promise the same bytes
    cut = raw(head("200 OK", "text/plain", {"Content-Length": str(len(BODY))} | weak), BODY[:1000])
    with archive({"/file": [cut, reply(BODY)]}) as server:
        assert bring(server, tmp_path)[1] == BODY
    assert "range" not in server.asked[1].headers


@pytest.mark.parametrize(
    "wrong",
    [
        raw(
            head("206 Partial", "text/plain", {"Content-Range": "bytes 5-9/10", "Content-Length": "5"}),
            b"wrong",
        ),
        reply(b"", status="416 Range Not Satisfiable"),
    ],
    ids=["wrong place", "no such range"],
)  # fmt: skip
def test_a_part_that_does_not_fit_is_thrown_away(wrong: Answer, tmp_path: Path) -> None:
    with archive({"/file": [resumable(BODY, cut_after=9_000), wrong, resumable(BODY)]}) as server:
        assert bring(server, tmp_path)[1] == BODY
    assert "range" not in server.asked[2].headers


def test_what_always_breaks_off_is_given_up_after_four_tries(tmp_path: Path) -> None:
    cut = raw(WHOLE, BODY[:70_000])
    with archive({"/file": cut}) as server, pytest.raises(Unreadable) as why:
        bring(server, tmp_path, seconds=600)
    assert why.value.fault.sentence().startswith("localhost: of the list of stations ")
    assert "announced" in why.value.fault.message
    assert len(server.asked) == 5  # the first brought something


def test_a_slow_archive_is_left_at_the_deadline_with_headers_a_letter_at_a_time(tmp_path: Path) -> None:
    begun = time.monotonic()
    said = refusal(raw(*[bytes([letter]) for letter in WHOLE], every=0.3), tmp_path, seconds=0.6)
    assert time.monotonic() - begun < 8  # its headers alone would take over twenty
    assert said.startswith("localhost: the list of stations did not come in the time given. Ask again later")


def test_what_came_before_the_deadline_is_kept_and_nothing_after_it(tmp_path: Path) -> None:
    pieces = [BODY[n : n + 50_000] for n in range(0, len(BODY), 50_000)]
    with archive({"/file": raw(WHOLE, *pieces, every=0.4)}) as server:
        with pytest.raises(Unreadable, match="did not come in the time given"):
            bring(server, tmp_path, seconds=1.5)
        size = (tmp_path / "file.part").stat().st_size
        time.sleep(0.5)
        assert (tmp_path / "file.part").stat().st_size == size
        assert 50_000 <= size < len(BODY)
        server.answers["/file"] = [resumable(BODY)]
        assert bring(server, tmp_path)[1] == BODY
    assert server.asked[-1].headers["range"] == f"bytes={size}-"


@pytest.mark.parametrize("status", ["429 Too Many Requests", "503 Service Unavailable"])
def test_an_archive_that_asks_for_patience_has_it(status: str, tmp_path: Path) -> None:
    busy = reply(b"", status=status, Retry_After="7")
    with archive({"/file": [busy, busy, reply(BODY)]}) as server:
        _, data, clock = bring(server, tmp_path, seconds=60)
    assert data == BODY
    assert clock.paused == [7.0, 7.0]


def test_a_date_of_patience_counts_from_the_date_of_the_archive(tmp_path: Path) -> None:
    busy = reply(
        b"", status="429 Wait",
        Date="Sat, 28 Nov 2026 12:00:00 GMT", Retry_After="Sat, 28 Nov 2026 12:00:09 GMT",
    )  # fmt: skip
    with archive({"/file": [busy, reply(BODY)]}) as server:
        assert bring(server, tmp_path, seconds=60)[2].paused == [9.0]


def test_more_patience_than_there_is_time_is_said(tmp_path: Path) -> None:
    said = refusal(reply(b"", status="429 Wait", Retry_After="1800"), tmp_path)
    assert said == (
        "localhost: it has too much to do (status 429). It asks for patience: ask again in 30 min."
    )


def test_trouble_of_the_archive_is_tried_again_ever_more_slowly(tmp_path: Path) -> None:
    with archive({"/file": reply(b"", status="500 Oh")}) as server:
        with pytest.raises(Unreadable, match=r"trouble of its own \(status 500\)"):
            bring(server, tmp_path, seconds=600)
        server.answers["/file"] = [reply(b"", status="502 Oh"), reply(BODY)]
        assert bring(server, tmp_path)[1] == BODY
    assert len(server.asked) == 4 + 2


REFUSED = {
    "gone": (reply(b"", status="404 Not Found"), "it refuses the list of stations (status 404)."),
    "a web page": (reply(b"<html>", "text/html; charset=utf-8"), "it sent a web page in place of"),
    "another type": (reply(b"x", "image/png"), "it sent image/png in place of"),
    "no type": (reply(b"x", ""), "it sent something without a type in place of"),
    "packed": (reply(b"x", Content_Encoding="gzip"), "packed, which was not asked for."),
    "no length": (raw(head("200 OK", "text/plain", {}), b"x"), "does not say how long the list of"),
    "huge by its word": (
        raw(head("200 OK", "text/plain", {"Content-Length": "9" * 12})), "is over 1 MB, too large"
    ),
    "huge in chunks": (
        raw(head("200 OK", "text/plain", {"Transfer-Encoding": "chunked"}),
            *[b"40000\r\n" + b"x" * 0x40000 + b"\r\n"] * 8, b"0\r\n\r\n"),
        "is over 1 MB, too large",
    ),
    "to plain http": (
        reply(b"", status="302 Found", Location="http://localhost/file"), "sends to http://localhost,"
    ),
    "to a file": (reply(b"", status="301 Moved", Location="file:///etc/hosts"), "sends to file://,"),
    "to another host": (
        reply(b"", status="307 Moved", Location="https://example.org/file"), "sends to https://example.org,"
    ),
    "to nowhere": (reply(b"", status="302 Found", Location="https://["), "to an address that is none."),
    "in a circle": (reply(b"", status="302 Found", Location="/file"), "from address to address without end."),
}  # fmt: skip


@pytest.mark.parametrize(("answer", "said"), REFUSED.values(), ids=REFUSED)
def test_what_is_not_taken_is_said_in_one_sentence(answer: Answer, said: str, tmp_path: Path) -> None:
    sentence = refusal(answer, tmp_path)
    assert sentence.startswith("localhost: ")
    assert said in sentence
    assert not (tmp_path / "file.part").exists() or (tmp_path / "file.part").stat().st_size <= 1_000_000


def test_a_file_that_moved_within_its_host_is_followed(tmp_path: Path) -> None:
    moved = reply(b"", status="301 Moved", Location="/there?x=1")
    with archive({"/file": moved, "/there": reply(BODY)}) as server:
        assert bring(server, tmp_path)[1] == BODY
    assert [asked.path for asked in server.asked] == ["/file", "/there?x=1"]


def test_a_newest_version_at_hand_is_not_sent_again(tmp_path: Path) -> None:
    with archive({"/file": reply(b"", status="304 Not Modified")}) as server:
        assert bring(server, tmp_path, known='"v1"')[0] is None
        assert bring(server, tmp_path, known="Sat, 28 Nov 2026 12:00:00 GMT")[0] is None
    assert server.asked[0].headers["if-none-match"] == '"v1"'
    assert server.asked[1].headers["if-modified-since"] == "Sat, 28 Nov 2026 12:00:00 GMT"


def test_a_certificate_that_is_not_trusted_and_a_server_without_one(tmp_path: Path) -> None:
    with archive({"/file": reply(BODY)}) as server:
        server.tls = ssl.create_default_context()
        with pytest.raises(Unreadable, match="its certificate is not one that this machine trusts"):
            bring(server, tmp_path)
        server.address = server.address.replace("https:", "http:")
        with pytest.raises(Unreadable, match="only https addresses are asked"):
            bring(server, tmp_path)
    assert server.asked == []


def test_where_nobody_answers_one_sentence_is_said(tmp_path: Path) -> None:
    with socket.create_server(("localhost", 0)) as closed:
        port = closed.getsockname()[1]
    for address in (f"https://localhost:{port}", "https://no-such-archive.invalid"):
        server = Archive(answers={}, tls=ssl.create_default_context(), address=address)
        with pytest.raises(Unreadable) as why:
            bring(server, tmp_path)
        assert why.value.fault.message == "it cannot be reached. Is this machine online?"


def test_what_the_disk_does_not_take_is_told_with_its_reason(tmp_path: Path) -> None:
    (tmp_path / "file.part").mkdir()
    with (
        archive({"/file": reply(BODY)}) as server,
        pytest.raises(Unreadable, match="cannot be kept: it is a folder"),
    ):
        bring(server, tmp_path)
