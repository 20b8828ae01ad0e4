"""Faults of several: programs that write at once, copies edited apart, files half synchronised, links."""

from __future__ import annotations

import os
import random
import shutil
import subprocess
from collections import Counter
from pathlib import Path

from leafturn.journal.entries import Entry, PlainNote
from leafturn.journal.store.store import Store
from leafturn.journal.withdrawals import not_withdrawn
from tests.faults.trial import (
    TODAY,
    Tally,
    Trial,
    compared,
    heard,
    is_sentence,
    note,
    noting,
    small_garden,
    texts,
)
from tests.in_process import run
from tests.samples.journal import in_child

WRITERS = 3


def at_once(times: int, seed: int) -> Tally:
    """Programs that note by the command at the same time."""
    tally = Tally(tried=times)
    each = max(1, times // WRITERS)
    with small_garden() as garden:
        children = [in_child(noting(garden, f"writer {number}", each)) for number in range(WRITERS)]
        acknowledged = [words for _, pipe in children for words in heard(pipe)]
        for child, _ in children:
            child.join()
        written = {f"writer {w} note {n} of many" for w in range(WRITERS) for n in range(each)}
        tally.add(compared(acknowledged, texts(garden), written))
        tally.unsaid += run("book", str(garden), "--verify").returncode != 0
    return tally


def _histories(garden: Path, chance: random.Random, *, undoing: bool) -> tuple[Path, Path, Counter[str]]:
    """Two copies that go on apart, each taking back notes of its own and old ones; what then stands.

    Where they are `undoing`, they take back withdrawals of their own too: a note stands again unless the
    other side took it back as well.
    """
    mine = Store(garden)
    old = [mine.append(PlainNote(on=TODAY, text=f"old {n}"), TODAY) for n in range(chance.randint(0, 4))]
    other = garden.with_name("other")
    shutil.copytree(garden, other)
    noted, gone = list(old), set[tuple[Path, str]]()
    for side in (garden, other):
        store, own, withdrawn = Store(side), list(old), list[tuple[Entry, Entry]]()
        for _ in range(chance.randint(0, 6)):
            way = chance.random()
            if own and way < 0.35:
                back = own.pop(chance.randrange(len(own)))
                withdrawn.append((back, store.withdraw(back.id, TODAY)))
                gone.add((side, back.id))
            elif undoing and withdrawn and way < 0.6:
                back, withdrawal = withdrawn.pop(chance.randrange(len(withdrawn)))
                store.withdraw(withdrawal.id, TODAY)
                gone.discard((side, back.id))
                own.append(back)
            else:
                # The same words on both sides: two notes all the same.
                own.append(store.append(PlainNote(on=TODAY, text=f"new {chance.randint(0, 2)}"), TODAY))
                noted.append(own[-1])
    taken_back = {note for _, note in gone}
    return garden, other, Counter(one.text or "" for one in noted if one.id not in taken_back)


def _stands(garden: Path) -> Counter[str]:
    return Counter(entry.text or "" for entry in not_withdrawn(Store(garden).read().entries))


def _ever(one: Path, two: Path) -> Counter[str]:
    """All that was ever noted in either: what came in part may hold a note whose withdrawal did not come."""
    noted = {entry.id: entry for side in (one, two) for entry in Store(side).read().entries}
    return Counter(entry.text or "" for entry in noted.values())


def edited_apart(times: int, seed: int) -> Tally:
    """Two copies brought together by each of four ways, in both orders."""
    chance, tally = random.Random(seed), Tally()
    for _ in range(times):
        with small_garden() as garden:
            mine, other, standing = _histories(garden, chance, undoing=True)
            for way in (_by_command, _by_copy_beside, _by_hand, _by_union):
                for one, two in ((mine, other), (other, mine)):
                    together = garden.with_name("together")
                    shutil.copytree(one, together)
                    if way(together, two, one):
                        tally.add(_count(standing, _stands(together)))
                    shutil.rmtree(together)
            shutil.rmtree(other)
    return tally


def _count(expected: Counter[str], found: Counter[str]) -> Tally:
    lost, wrong = (expected - found).total(), (found - expected).total()
    return Tally(tried=1, acknowledged=expected.total(), lost=lost, wrong=wrong)


def _files(one: Path, two: Path) -> tuple[Path, Path] | None:
    found = [next(iter((side / "journal").glob("*.toml")), None) for side in (one, two)]
    return None if None in found else (found[0], found[1])  # type: ignore[return-value]


def _by_command(together: Path, two: Path, one: Path) -> bool:
    files = _files(together, two)
    return files is not None and run("book", "--merge", *map(str, files)).returncode == 0


def _by_copy_beside(together: Path, two: Path, one: Path) -> bool:
    files = _files(together, two)
    if files is not None:
        shutil.copy(files[1], files[0].with_name("2027.conflict-20270419-101500.toml"))
    return files is not None


def _by_hand(together: Path, two: Path, one: Path) -> bool:
    files = _files(together, two)
    if files is not None:
        files[0].write_bytes(files[0].read_bytes() + b"\n" + files[1].read_bytes())
    return files is not None


def _by_union(together: Path, two: Path, one: Path) -> bool:
    """Line by line, as version control does without a driver, from what both had in common."""
    files = _files(together, two)
    if files is None or shutil.which("git") is None:
        return False
    base = together / "base"
    texts = [file.read_text().split("\n\n") for file in files]
    common = [a for a, b in zip(*texts, strict=False) if a == b]
    base.write_text("\n\n".join(common).rstrip("\n") + "\n")
    merge = ["git", "merge-file", "--union", str(files[0]), str(base), str(files[1])]
    return subprocess.run(merge, capture_output=True, check=False).returncode == 0


def half_synchronised(times: int, seed: int) -> Tally:
    """A copy of the other side that came only in part lies beside the journal; later the whole of it."""
    chance, tally = random.Random(seed), Tally(tried=times)
    for _ in range(times):
        with small_garden() as garden:
            mine, other, standing = _histories(garden, chance, undoing=False)
            files = _files(mine, other)
            if files is not None:
                before, whole = _stands(mine), files[1].read_bytes()
                beside = files[0].with_name("2027 (copy of the other).toml")
                beside.write_bytes(whole[: chance.randint(0, len(whole))])
                half = _stands(mine)
                ever = _ever(mine, other)
                taken_back = before - standing  # what the half may take back already
                lost = (before - taken_back - half).total()
                tally.add(Tally(wrong=(half - ever).total(), lost=lost))
                beside.write_bytes(whole)
                tally.add(_count(standing, _stands(mine)))
                tally.tried -= 1
            shutil.rmtree(other)
    return tally


def links_and_pipes(times: int, seed: int) -> Tally:
    """Links, folders, pipes and devices where files of the journal, the weather, kinds and papers belong."""
    chance, tally = random.Random(seed), Tally(tried=times)
    for _ in range(times):
        with small_garden(journal=False) as garden:
            file = garden / "garden.toml"
            file.write_text(file.read_text().replace("[place]", '[place]\nweather = "weather.csv"'))
            victim = garden.parent / "victim.toml"
            victim.write_text("mine\n")
            place = garden / chance.choice(
                (
                    "journal/2027.toml",
                    "journal/2026.toml",
                    "journal.toml",
                    "kinds.toml",
                    "weather.csv",
                    "journal",
                    "papers",
                    "papers/bloom.ics",
                )
            )
            place.parent.mkdir(exist_ok=True)
            way = chance.choice(("folder", "pipe", "ring", "nothing", "device", "victim"))
            if way == "folder":
                place.mkdir()
            elif way == "pipe":
                os.mkfifo(place)
            else:
                targets = {
                    "ring": place,
                    "nothing": garden / "no" / "where",
                    "device": "/dev/zero",
                    "victim": victim,
                }
                place.symlink_to(targets[way])
            said = note(garden, "in spite of it")
            acknowledged = ["in spite of it"] if said == "kept" else []
            feed = run("feed", str(garden), "--on", TODAY.isoformat())
            tally.unsaid += feed.returncode == 2 and not is_sentence(feed.stderr.strip())
            tally.unsaid += said != "kept" and not is_sentence(said)
            tally.wrong += victim.read_text() != "mine\n" or len(list(garden.parent.iterdir())) != 2
            tally.add(compared(acknowledged, texts(garden), {"in spite of it"}))
    return tally


TRIALS = (
    Trial("at once", "programs that note at the same time", at_once, 12, 600),
    Trial(
        "apart",
        "two copies edited apart, brought together in four ways and both orders",
        edited_apart,
        4,
        200,
    ),
    Trial("half", "a copy that came only in part beside the journal, then whole", half_synchronised, 10, 500),
    Trial("links", "links, folders, pipes and devices where files belong", links_and_pipes, 8, 200),
)
