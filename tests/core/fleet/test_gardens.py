"""Which gardens a folder or a list means."""

from __future__ import annotations

from pathlib import Path

import pytest

from leafturn.base.faults import Unreadable
from leafturn.fleet.gardens import find_gardens


def make(folder: Path) -> None:
    folder.mkdir(parents=True)
    (folder / "garden.toml").write_text("")


def names(where: Path) -> list[str]:
    return [one.name for one in find_gardens(where)]


def test_a_folder_means_every_garden_below_it_in_order(tmp_path: Path) -> None:
    for name in ("weir", "north/b", "north/a", "north/a/nested", ".hidden/c"):
        make(tmp_path / "all" / name)
    (tmp_path / "all" / "ring").symlink_to(tmp_path / "all")
    (tmp_path / "all" / "empty").mkdir()
    assert names(tmp_path / "all") == ["north/a", "north/a/nested", "north/b", "weir"]
    assert find_gardens(tmp_path / "all")[0].path == tmp_path / "all" / "north" / "a"
    assert names(tmp_path / "all" / "weir") == ["weir"]


def test_a_list_means_its_lines_from_its_own_folder_each_once(tmp_path: Path) -> None:
    (tmp_path / "ours.txt").write_text("# ours\nweir\n\n  mill/garden.toml \nweir\n/far/off\n")
    found = find_gardens(tmp_path / "ours.txt")
    assert [one.name for one in found] == ["weir", "mill/garden.toml", "/far/off"]
    assert [one.path for one in found][::2] == [tmp_path / "weir", Path("/far/off")]


def test_names_are_made_harmless_and_paths_stay_as_they_are(tmp_path: Path) -> None:
    make(tmp_path / "all" / "a\x1b[2Jb")
    (one,) = find_gardens(tmp_path / "all", lambda text: text.replace("\x1b", "?"))
    assert one.name == "a?[2Jb"
    assert one.path.exists()


@pytest.mark.parametrize(
    ("name", "said"),
    [("none", "no such folder"), ("empty", "no garden"), ("list", "no garden"), ("bytes", "no text")],
)
def test_where_there_is_none_one_sentence_says_so(name: str, said: str, tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    (tmp_path / "list").write_text("# nothing yet\n")
    (tmp_path / "bytes").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(Unreadable, match=said):
        find_gardens(tmp_path / name)
