"""Migrations are numbered without a gap, and HEAD says which is the newest."""

import ast
import importlib
import re
import subprocess
import sys
from pathlib import Path
from types import ModuleType

import pytest

from app import opening
from app.services import migrating
from tests.databases import ROOT

VERSIONS = sorted((ROOT / "migrations" / "versions").glob("[0-9]*.py"))
NUMBERS = [path.name.partition("_")[0] for path in VERSIONS]


def _module(stem: str) -> ModuleType:
    return importlib.import_module(f"migrations.versions.{stem}")


def test_numbers_follow_each_other() -> None:
    assert [f"{number:04}" for number in range(1, len(VERSIONS) + 1)] == NUMBERS


@pytest.mark.parametrize("path", VERSIONS, ids=lambda path: path.stem)
def test_a_migration_is_its_files_number_after_the_one_before(path: Path) -> None:
    stem = path.stem
    module, number = _module(stem), stem.partition("_")[0]
    before = f"{int(number) - 1:04}" if int(number) > 1 else None
    assert (module.revision, module.down_revision) == (number, before)
    assert re.fullmatch(r"\d{4}_[a-z0-9_]+", stem)


@pytest.mark.parametrize("path", VERSIONS, ids=lambda path: path.stem)
def test_a_migration_has_a_way_back_or_says_why_not(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    back = next(one for one in tree.body if isinstance(one, ast.FunctionDef) and one.name == "downgrade")
    does = [one for one in back.body if not isinstance(one, ast.Pass) and not _is_text(one)]
    assert does or (ast.get_docstring(back) or "").endswith("."), f"{path.name} has no way back and no reason"


def _is_text(statement: ast.stmt) -> bool:
    return isinstance(statement, ast.Expr) and isinstance(statement.value, ast.Constant)


def test_a_migration_knows_nothing_of_the_code() -> None:
    """It must do the same when the code has changed, so it imports only SQLAlchemy and alembic."""
    wrong = [
        f"{path.name}: {name}"
        for path in VERSIONS
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Import | ast.ImportFrom)
        for name in [getattr(node, "module", None) or ", ".join(one.name for one in node.names)]
        if name.split(".")[0] not in ("sqlalchemy", "alembic")
    ]
    assert not wrong


def test_head_is_the_newest() -> None:
    assert (ROOT / "migrations" / "HEAD").read_text(encoding="utf-8").strip() == NUMBERS[-1]


def test_alembic_knows_the_same_migrations_as_the_commands() -> None:
    assert migrating.revisions() == opening.numbers() == NUMBERS


def test_the_served_process_does_not_import_alembic(tmp_path: Path) -> None:
    """It takes half a second of every start and memory of every worker."""
    code = "import sys, app.wsgi; sys.exit('alembic' in sys.modules)"
    told = {"ROPEWALK_DATA": str(tmp_path), "PATH": "", "PYTHONPATH": str(ROOT)}
    done = subprocess.run([sys.executable, "-c", code], env=told, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
