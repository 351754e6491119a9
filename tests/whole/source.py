"""The product's source as the tests of this folder read it: parsed, never run."""

import ast
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
APP = ROOT / "app"

Function = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True)
class Module:
    """One Python file."""

    path: Path

    @property
    def place(self) -> str:
        """Its path from the project's folder."""
        return self.path.relative_to(ROOT).as_posix()

    @property
    def name(self) -> str:
        """Its name as an import says it."""
        parts = self.path.relative_to(ROOT).with_suffix("").parts
        return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)

    @property
    def layer(self) -> str:
        """The folder under app that it lies in; for a module beside them, its own file's name."""
        parts = self.path.relative_to(ROOT).parts
        return parts[1] if len(parts) > 2 else parts[-1].removesuffix(".py")

    @cached_property
    def text(self) -> str:
        """The file's text."""
        return self.path.read_text(encoding="utf-8")

    @cached_property
    def tree(self) -> ast.Module:
        """The file, parsed."""
        return ast.parse(self.text, filename=self.place)

    def functions(self) -> Iterator[Function]:
        """Every function, those within classes and functions too."""
        return (node for node in ast.walk(self.tree) if isinstance(node, Function))

    def imports(self) -> Iterator[tuple[str, Sequence[str], int]]:
        """Each import: the module, the names taken from it, the line. A module imported by its name counts too."""
        for node in ast.walk(self.tree):
            if isinstance(node, ast.Import):
                yield from ((one.name, (), node.lineno) for one in node.names)
            elif isinstance(node, ast.ImportFrom):
                assert not node.level, f"{self.place}:{node.lineno} imports from a dot; say the whole name"
                yield node.module or "", [one.name for one in node.names], node.lineno
            elif isinstance(node, ast.Call) and _called(node.func) == "import_module":
                assert isinstance(node.args[0], ast.Constant), f"{self.place}:{node.lineno} hides what it imports"
                yield str(node.args[0].value), (), node.lineno


def _called(function: ast.expr) -> str:
    return function.attr if isinstance(function, ast.Attribute) else getattr(function, "id", "")


@cache
def modules(folder: Path = APP) -> tuple[Module, ...]:
    """Every Python file under a folder, in order."""
    return tuple(Module(path) for path in sorted(folder.rglob("*.py")) if "__pycache__" not in path.parts)


def code_lines(function: Function, text: str) -> int:
    """How many lines of code a function has: its docstring, comments and blank lines aside, its head counted once."""
    lines = text.splitlines()
    body = function.body[1:] if ast.get_docstring(function) is not None else function.body
    if not body:
        return 0
    numbers = range(body[0].lineno, (function.end_lineno or body[-1].lineno) + 1)
    return sum(bool(line := lines[number - 1].strip()) and not line.startswith("#") for number in numbers)


def is_public(name: str) -> bool:
    """Whether a name is offered to others."""
    return not name.startswith("_")
