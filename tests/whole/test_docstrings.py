"""What is said of a function: a first line for every public one, a whole contract for every sum."""

import ast
import re
from collections.abc import Iterator

import pytest

from tests.whole.source import Function, Module, is_public, modules

PARTS = ("Parameters:", "Returns:", "Raises:", "Source:")
UNIT = re.compile(r"\[[^\]\s][^\]]*\]")
SUMS = [module for module in modules() if module.layer == "mechanics"]


def _public(body: list[ast.stmt]) -> Iterator[Function]:
    """Functions that others may call: of a module, and of its public classes."""
    for node in body:
        if isinstance(node, Function) and is_public(node.name):
            yield node
        elif isinstance(node, ast.ClassDef) and is_public(node.name):
            yield from _public(node.body)


@pytest.mark.parametrize("module", modules(), ids=lambda module: module.place)
def test_every_public_function_says_what_is_true_after_it(module: Module) -> None:
    wrong = [
        f"{module.place}:{function.lineno} {function.name}"
        for function in _public(module.tree.body)
        for first in [(ast.get_docstring(function) or "").split("\n\n")[0].strip()]
        if not first or first[-1] not in ".:;" or (first[0].isalpha() and not first[0].isupper())
    ]
    assert not wrong, f"no docstring whose first part is a sentence: {wrong}"


def test_every_module_says_what_it_is() -> None:
    silent = [module.place for module in modules() if module.text.strip() and not ast.get_docstring(module.tree)]
    assert not silent


@pytest.mark.parametrize(
    ("module", "function"),
    [(one, function) for one in SUMS for function in one.tree.body if isinstance(function, Function)],
    ids=lambda part: part.name.removeprefix("app.mechanics."),
)
def test_every_sum_has_its_contract(module: Module, function: Function) -> None:
    if not is_public(function.name):
        return
    said = ast.get_docstring(function) or ""
    missing = [part for part in PARTS if part not in said]
    assert not missing, f"{module.place}: {function.name} lacks {missing}"
    assert UNIT.search(said), f"{module.place}: {function.name} names no unit in brackets"
    arguments = [one.arg for one in (*function.args.args, *function.args.kwonlyargs)]
    unsaid = [name for name in arguments if not re.search(rf"\b{name}\b", said)]
    assert not unsaid, f"{module.place}: {function.name} does not say what {unsaid} is"
    assert said.index("Parameters:") < said.index("Returns:") < said.index("Raises:") < said.index("Source:")
