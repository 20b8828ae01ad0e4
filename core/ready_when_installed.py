"""Run when the program is installed: what its first start would else have to make is made then."""

from __future__ import annotations

import compileall
import sys
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class ReadyWhenInstalled(BuildHookInterface[Any]):
    """Parses the packaged tables; compiles the sources where they are run in place, as else pip does."""

    PLUGIN_NAME = "custom"

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Before a wheel is put together; `version` is "editable" for one that only points here."""
        root = Path(self.root)
        sys.path.insert(0, str(root / "core"))
        from leafturn.toml.ready_tables import make_ready

        made = make_ready(root / "core" / "leafturn")
        if version == "editable":
            for sources in ("core", "tui"):
                compileall.compile_dir(root / sources, quiet=2)
        else:
            build_data["artifacts"] += [str(path.relative_to(root)) for path in made]
