"""`ropewalk demo` and `ropewalk export`, on the demo lessons."""

import shutil
from datetime import UTC, datetime
from pathlib import Path

import pytest

from app import commands
from app.services import files, picture, seeding, teachers
from app.services.migrating import migrate
from app.store.database import Database, sqlite_url
from tests.commands.told import Run, refused

AT = datetime(2026, 3, 12, 9, 0, tzinfo=UTC)


@pytest.fixture(scope="module")
def loaded(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A database file with a teacher and the demo lessons, to be copied."""
    path = tmp_path_factory.mktemp("demo") / "ropewalk.sqlite"
    database = Database(sqlite_url(path))
    migrate(database)
    teachers.first_link(database, at=AT)
    seeding.load_demo(database, at=AT)
    database.close()
    return path


@pytest.fixture
def database(loaded: Path, tmp_path: Path) -> Database:
    """A copy of it in the test's own data folder, which `run` works on."""
    (tmp_path / "data").mkdir()
    shutil.copyfile(loaded, tmp_path / "data" / "ropewalk.sqlite")
    return Database(sqlite_url(tmp_path / "data" / "ropewalk.sqlite"))


def keys(database: Database) -> list[str]:
    lesson = seeding.under_way(database)
    return [lesson.lesson_key] if lesson else []


def test_the_demo_lessons_are_loaded_once(run: Run, tmp_path: Path) -> None:
    assert run("migrate").status == 0
    refused(run("demo"), "ropewalk teacher add")
    assert run("teacher", "add", "moss").status == 0
    told = run("demo")
    assert (told.status, told.err) == (0, "")
    assert told.out == f"Lesson key: {keys(Database(sqlite_url(tmp_path / 'data' / 'ropewalk.sqlite')))[0]}\n"
    again = run("demo")
    assert again.status == 1
    assert "already" in again.out


def test_a_fresh_copy_has_a_key_of_its_own(run: Run, database: Database) -> None:
    before = keys(database)
    told = run("demo", "--again")
    assert told.status == 0
    assert [told.out.removeprefix("Lesson key: ").strip()] == keys(database) != before


def test_invented_benches_read_on_until_ctrl_c(run: Run, database: Database, monkeypatch: pytest.MonkeyPatch) -> None:
    lesson = seeding.under_way(database)
    assert lesson is not None
    waits: list[float] = []

    def sleep(seconds: float) -> None:
        waits.append(seconds)
        if len(waits) == 3:
            raise KeyboardInterrupt

    monkeypatch.setattr(commands.time, "sleep", sleep)
    told = run("demo", "--play")
    assert told.status == 0
    assert lesson.lesson_key in told.out
    assert told.out.count(" ...\n") == len(waits) == 3
    now = seeding.under_way(database)
    assert now is not None
    assert now.head > lesson.head


def test_playing_to_the_end_says_so(run: Run, database: Database, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(commands.time, "sleep", lambda _: None)
    assert "have ended" in run("demo", "--play").out
    lesson = seeding.under_way(database)
    assert lesson is not None
    assert seeding.play_one(database, lesson.id, at=AT) is None


def test_playing_without_a_lesson_under_way_is_refused(run: Run) -> None:
    assert run("migrate").status == 0
    assert run("teacher", "add", "moss").status == 0
    refused(run("demo", "--play"), "--again")


def test_an_export_is_the_class_csv_byte_for_byte(run: Run, database: Database, tmp_path: Path) -> None:
    target = tmp_path / "Class.CSV"
    told = run("export", seeding.FINISHED, "--to", str(target))
    seen = picture.see(database, seeding.FINISHED)
    assert told.status == 0
    assert target.read_bytes() == files.class_csv(seen.picture).encode()
    rows = sum(len(cord.points) for cord in seen.picture.specimens)
    assert told.out == f"{target}: {rows} readings of {seen.lesson.title}.\n"


def test_an_export_never_writes_over_a_file(run: Run, database: Database, tmp_path: Path) -> None:
    (tmp_path / "there.csv").write_text("mine")
    refused(run("export", seeding.FINISHED, "--to", str(tmp_path / "there.csv")), "there already")
    assert (tmp_path / "there.csv").read_text() == "mine"


def test_an_export_into_no_folder_is_refused(run: Run, database: Database, tmp_path: Path) -> None:
    refused(run("export", seeding.FINISHED, "--to", str(tmp_path / "no" / "x.csv")), "can't be written")
