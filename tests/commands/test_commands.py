"""The command line: what each command does, and its exit status (contract.md 2)."""

import json
import re
import sqlite3
import subprocess
import sys
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from app import commands, opening
from app.services import migrating, teachers
from app.store.database import Database, sqlite_url
from tests.commands.told import Run, refused

AT = datetime(2026, 3, 12, 9, 0, tzinfo=UTC)


def data_of(tmp_path: Path) -> Database:
    return Database(sqlite_url(tmp_path / "data" / "ropewalk.sqlite"))


def test_every_command_says_what_it_does_with_an_example_and_takes_a_data_folder(run: Run) -> None:
    groups = {"teacher"}
    for name in sorted(commands.ropewalk.commands):
        for words in [[name, one] for one in commands.teacher.commands] if name in groups else [[name]]:
            told = run(*words, "--help")
            assert told.status == 0
            assert f"Example: ropewalk {' '.join(words)}" in told.out
            assert "--data" in told.out


def test_migrate_makes_the_tables_and_says_where_it_stands(run: Run, tmp_path: Path) -> None:
    head = opening.numbers()[-1]
    assert run("migrate", "--show").out.splitlines() == opening.numbers()
    assert run("migrate").out == f"The database stands at migration {head}.\n"
    assert run("migrate").status == 0
    assert f"{head} (here)" in run("migrate", "--show").out.splitlines()
    assert data_of(tmp_path).revision() == head


def test_the_file_names_tell_the_same_numbers_as_alembic() -> None:
    assert opening.numbers() == migrating.revisions()


def test_the_served_process_does_not_import_alembic() -> None:
    """Source: stack.md 1. The command line and the app are imported in a Python of their own."""
    code = "import sys, app.commands, app; sys.exit('alembic' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], cwd=opening.CODE_FOLDER, check=False).returncode == 0


def test_a_migration_that_is_not_there_is_refused(run: Run) -> None:
    refused(run("migrate", "--to", "7777"), "no migration 7777")


def test_a_step_back_needs_the_word(migrated: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(commands, "numbers", lambda: ["0000", *opening.numbers()])
    refused(migrated("migrate", "--to", "0000"), "--lose-data")


def test_a_database_from_a_newer_version_is_refused(migrated: Run, tmp_path: Path) -> None:
    with closing(sqlite3.connect(tmp_path / "data" / "ropewalk.sqlite")) as file, file:
        file.execute("UPDATE alembic_version SET version_num = '9999'")
    for words in (["migrate"], ["serve", "--port", "65500"], ["teacher", "add", "moss"]):
        refused(migrated(*words), "newer version of Ropewalk (migration 9999)")


def test_a_file_that_is_no_database_is_refused(run: Run, tmp_path: Path) -> None:
    (tmp_path / "data").mkdir()
    (tmp_path / "data" / "ropewalk.sqlite").write_text("words, not tables " * 100)
    refused(run("migrate"), "can't be opened")


def test_a_database_server_that_does_not_answer_is_refused(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("ROPEWALK_DATABASE_URL", "postgresql+psycopg://moss@127.0.0.1:1/ropewalk")
    refused(run("migrate"), "does not answer")


def test_serving_a_database_that_is_not_migrated_is_refused(run: Run) -> None:
    refused(run("serve", "--port", "65500"), "ropewalk migrate")


def test_a_command_s_own_data_folder_wins(run: Run, tmp_path: Path) -> None:
    assert run("migrate", "--data", str(tmp_path / "other")).status == 0
    assert (tmp_path / "other" / "ropewalk.sqlite").exists()
    assert not (tmp_path / "data").exists()


def test_a_path_with_odd_signs_is_the_path_that_is_opened(run: Run, tmp_path: Path) -> None:
    folder = tmp_path / "50% done? yes"
    assert run("migrate", "--data", str(folder)).status == 0
    assert (folder / "ropewalk.sqlite").stat().st_size > 0


def test_a_teacher_without_a_passphrase_gets_a_link_that_lets_in_once(migrated: Run, tmp_path: Path) -> None:
    told = migrated("teacher", "add", "moss")
    found = re.fullmatch(r"First sign-in: http://127\.0\.0\.1:8000/first/(\S+)\n", told.out)
    assert found
    assert teachers.whose_first_link(data_of(tmp_path), found[1]) == "moss"


def test_a_teacher_with_a_passphrase_can_sign_in(migrated: Run, tmp_path: Path) -> None:
    (tmp_path / "phrase").write_text("twelve pouches hang\nnot this\n")
    told = migrated("teacher", "add", "moss", "--password-file", str(tmp_path / "phrase"))
    assert told.out == "Sign in: http://127.0.0.1:8000/sign-in\n"
    signed = teachers.sign_in(data_of(tmp_path), "moss", "twelve pouches hang", from_hash="x", at=AT)
    assert signed.sign_in_name == "moss"


def test_a_teacher_s_faults_are_refused(migrated: Run, tmp_path: Path) -> None:
    (tmp_path / "short").write_text("eleven char\n")
    assert migrated("teacher", "add", "moss").status == 0
    refused(migrated("teacher", "add", "moss"), "moss")
    refused(migrated("teacher", "reset", "fern"), "fern")
    refused(migrated("teacher", "add", "fern", "--password-file", str(tmp_path / "short")), "at least 12")
    refused(migrated("teacher", "add", "fern", "--password-file", str(tmp_path / "none")), "none")
    refused(migrated("teacher", "add", ""), "1 to 40")


def test_a_reset_ends_the_old_way_in(migrated: Run, tmp_path: Path) -> None:
    first = migrated("teacher", "add", "moss").out.split("/first/")[1].strip()
    second = migrated("teacher", "reset", "moss").out.split("/first/")[1].strip()
    assert teachers.whose_first_link(data_of(tmp_path), second) == "moss"
    with pytest.raises(teachers.UnknownCode):
        teachers.whose_first_link(data_of(tmp_path), first)


def test_an_export_needs_a_name_that_ends_in_csv(migrated: Run, tmp_path: Path) -> None:
    for to in ([], ["--to", str(tmp_path / "lesson.zip")], ["--to", str(tmp_path / "lesson")]):
        refused(migrated("export", "no-lesson", *to), ".csv")


def test_an_export_of_an_unknown_lesson_is_refused_and_makes_no_file(migrated: Run, tmp_path: Path) -> None:
    refused(migrated("export", "no-lesson", "--to", str(tmp_path / "x.csv")), "no such lesson")
    assert not (tmp_path / "x.csv").exists()


@pytest.mark.parametrize(
    "words", [[], ["teacher"], ["reckon"], ["migrate", "--loud"], ["export"], ["serve", "--port", "0"]]
)
def test_what_is_no_command_is_one_sentence(run: Run, words: list[str]) -> None:
    refused(run(*words), "--help")


def test_what_breaks_has_a_reference_that_the_log_has_too(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(commands, "open_database", lambda _: 1 / 0)
    told = run("migrate")
    line, sentence = told.err.splitlines()
    assert told.status == 3
    assert json.loads(line)["error"] == "ZeroDivisionError"
    assert json.loads(line)["reference"] in sentence
