"""A disk that forgets what was not synced: what lies on it after the power failed at any moment.

It listens to the calls of `os` by which files are written (open, write, ftruncate, fsync, replace, unlink,
mkdir) below one folder, and keeps beside what is there what is certain: the bytes of a file as of its last
fsync, and the names in a folder as of the last fsync of that folder (fsync(2): "does not necessarily ensure
that the entry in the directory containing the file has also reached disk"). `after_power_loss` lays out a
folder as it may be found: names not synced are gone, and of bytes not synced any beginning, or zeros, or
nothing came through.
"""

from __future__ import annotations

import contextlib
import os
import random
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from unittest import mock


@dataclass
class _File:
    """One file: what is certain, and what is there."""

    certain: bytes = b""
    there: bytes = b""


@dataclass
class LossyDisk:
    """The disk below one folder. `events` counts what happened so far."""

    root: Path
    events: int = 0
    names: dict[Path, _File] = field(default_factory=dict)
    certain_names: dict[Path, _File] = field(default_factory=dict)
    folders: set[Path] = field(default_factory=set)
    certain_folders: set[Path] = field(default_factory=set)

    @contextlib.contextmanager
    def listening(self) -> Iterator[None]:
        """Listen to this process."""
        opened: dict[int, Path] = {}
        real = {name: getattr(os, name) for name in ("open", "write", "fsync", "ftruncate", "close", "mkdir")}

        def seen(path: Any) -> Path | None:
            whole = Path(os.path.abspath(path))
            return whole if whole.is_relative_to(self.root) else None

        def open_(path: Any, flags: int, *more: Any, **named: Any) -> int:
            descriptor: int = real["open"](path, flags, *more, **named)
            if (whole := seen(path)) is not None:
                opened[descriptor] = whole
                if flags & os.O_CREAT:
                    self.events += 1
                    self.names.setdefault(whole, _File())
            return descriptor

        def write(descriptor: int, data: bytes) -> int:
            written: int = real["write"](descriptor, data)
            if (path := opened.get(descriptor)) is not None:
                self.events += 1
                self.names[path].there += bytes(data[:written])
            return written

        def ftruncate(descriptor: int, size: int) -> None:
            real["ftruncate"](descriptor, size)
            if (path := opened.get(descriptor)) is not None:
                self.events += 1
                self.names[path].there = self.names[path].there[:size]

        def fsync(descriptor: int) -> None:
            path = opened.get(descriptor)
            if path is None:
                return
            self.events += 1
            if path.is_dir():
                inside = {name: file for name, file in self.names.items() if name.parent == path}
                self.certain_names.update(inside)
                self.certain_folders |= {folder for folder in self.folders if folder.parent == path}
            else:
                self.names[path].certain = self.names[path].there

        def close(descriptor: int) -> None:
            opened.pop(descriptor, None)
            real["close"](descriptor)

        def mkdir(path: Any, *more: Any, **named: Any) -> None:
            real["mkdir"](path, *more, **named)
            if (whole := seen(path)) is not None:
                self.events += 1
                self.folders.add(whole)

        calls = {"open": open_, "write": write, "fsync": fsync, "ftruncate": ftruncate, "close": close}
        with mock.patch.multiple(os, mkdir=mkdir, **calls):
            yield

    def after_power_loss(self, into: Path, chance: random.Random) -> None:
        """Lay out below `into` what may be found after the power fails now."""
        for folder in self.certain_folders:
            (into / folder.relative_to(self.root)).mkdir(parents=True, exist_ok=True)
        for path, file in self.certain_names.items():
            target = into / path.relative_to(self.root)
            if target.parent.is_dir():
                target.write_bytes(_found(file, chance))


def _found(file: _File, chance: random.Random) -> bytes:
    """A file's bytes as they may be found."""
    if not file.there.startswith(file.certain):  # cut off, and that was not synced
        return chance.choice((file.certain, file.there))
    pending = file.there[len(file.certain) :]
    came = chance.randint(0, len(pending))
    zeros = bytes(chance.choice((0, len(pending) - came)))
    return file.certain + pending[:came] + zeros
