"""Both packages keep the house's sizes: small modules, short functions, few parameters."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
MODULES = sorted(p for folder in ("core/leafturn", "tui/leafturn_tui") for p in (ROOT / folder).rglob("*.py"))
MOST_LINES_OF_A_MODULE, MOST_LINES_OF_A_FUNCTION, MOST_PARAMETERS = 300, 60, 7
EXCEPTION = "Exception to the house's sizes:"

Function = ast.FunctionDef | ast.AsyncFunctionDef


def too_large(text: str, name: str) -> Iterator[str]:
    """One line for each module and function beyond the sizes whose docstring does not say why."""
    tree = ast.parse(text)
    lines = len(text.splitlines())
    if lines > MOST_LINES_OF_A_MODULE and not _excepted(tree):
        yield f"{name}: {lines} lines"
    for node in ast.walk(tree):
        if isinstance(node, Function) and not _excepted(node):
            assert node.end_lineno is not None
            lines, parameters = node.end_lineno - node.lineno + 1, len(_parameters(node))
            if lines > MOST_LINES_OF_A_FUNCTION:
                yield f"{name}, line {node.lineno}: {node.name} has {lines} lines"
            if parameters > MOST_PARAMETERS:
                yield f"{name}, line {node.lineno}: {node.name} has {parameters} parameters"


def _parameters(node: Function) -> list[str]:
    """All parameters but that which stands for the object or its class."""
    named = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]
    gathered = [one for one in (node.args.vararg, node.args.kwarg) if one is not None]
    return [one.arg for one in (*named, *gathered) if one.arg not in ("self", "cls")]


def _excepted(node: ast.Module | Function) -> bool:
    """Whether the docstring says, on a line of its own, why it is an exception."""
    said = (line.strip() for line in (ast.get_docstring(node) or "").splitlines())
    return any(line.startswith(EXCEPTION) and line.removeprefix(EXCEPTION).strip() for line in said)


@pytest.mark.parametrize("path", MODULES, ids=[str(p.relative_to(ROOT)) for p in MODULES])
def test_modules_and_functions_keep_the_sizes(path: Path) -> None:
    assert list(too_large(path.read_text(encoding="utf-8"), path.name)) == []


def test_what_is_too_large_is_found_unless_its_docstring_says_why() -> None:
    many = ", ".join(f"p{n}" for n in range(MOST_PARAMETERS + 1))
    long = "".join("    x = 1\n" for _ in range(MOST_LINES_OF_A_FUNCTION))
    wide, tall = f"def wide({many}):\n    pass\n", f"def tall():\n{long}"
    assert list(too_large(wide + tall, "m")) == [
        "m, line 1: wide has 8 parameters", f"m, line 3: tall has {MOST_LINES_OF_A_FUNCTION + 1} lines",
    ]  # fmt: skip
    assert list(too_large("x = 1\n" * (MOST_LINES_OF_A_MODULE + 1), "m")) == ["m: 301 lines"]
    why = f'    """Do it.\n\n    {EXCEPTION} one table\n    """\n'
    assert list(too_large(f"def tall():\n{why}{long}", "m")) == []
    assert list(too_large(f"def tall():\n{why.replace(' one table', '')}{long}", "m")) != []
    assert (
        list(too_large(f"class A:\n    def f(self, {many.replace(', p7', '')}):\n        pass\n", "m")) == []
    )


def test_a_start_waits_for_no_pattern() -> None:
    """A hundred patterns compiled while modules loaded took a twentieth of a first start."""
    compiling = [path.name for path in MODULES if "re.compile(" in path.read_text(encoding="utf-8")]
    assert compiling == ["patterns.py"], "use leafturn.base.patterns.pattern"
