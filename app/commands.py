"""The command line: each command parses, calls one service, prints. The four exit statuses are made in `main`.

0 done; 1 done with doubts, printed; 2 refused, with one sentence; 3 something broke, with a reference number.
"""

import logging
import secrets
import sys
import time
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import click

from app import serving
from app.analyse_command import analyse
from app.domain.errors import Refusal
from app.log import start_log
from app.opening import (
    mended_database,
    migrate_to,
    numbers,
    open_database,
    ready_database,
    refuse_newer,
    settings_now,
)
from app.options import Command, data_option, listening_options
from app.services import files, picture, seeding, teachers
from app.settings import Settings, SettingsRefused
from app.statuses import BROKE, DONE, DOUBTS, REFUSED
from app.store.database import Database

LOG = logging.getLogger("ropewalk.command")
PLAY_EVERY_S = 5


def main() -> None:
    """The process ends with the command's status; nothing that goes wrong is shown as a traceback."""
    try:
        status = ropewalk.main(prog_name="ropewalk", standalone_mode=False)
    except (Refusal, SettingsRefused) as refusal:
        status = _refused(refusal.sentence)
    except click.ClickException as fault:
        status = _refused(f"{fault.format_message()} (--help says more)")
    except click.Abort:
        status = 130
    except Exception:
        reference = secrets.token_hex(5)
        start_log("info")
        LOG.exception("a command broke", extra={"told": {"reference": reference}})
        click.echo(f"Something broke; its reference number in the log is {reference}.", err=True)
        status = BROKE
    sys.exit(status)


def _refused(sentence: str) -> int:
    click.echo(" ".join(sentence.split()), err=True)
    return REFUSED


@click.group(no_args_is_help=False, context_settings={"help_option_names": ["--help"], "max_content_width": 100})
def ropewalk() -> None:
    """Ropewalk: readings of a class cord test, from the tablets at the benches to one live class graph.

    Exit status: 0 done; 1 done with doubts, which are printed; 2 refused, with one sentence; 3 something broke, with a
    reference number that the log has too.
    """


@ropewalk.command(epilog="Example: ropewalk serve --port 8080 --workers 2")
@listening_options
def serve() -> int:
    """Serve pages and /api/v1 until Ctrl-C."""
    settings = settings_now()
    serving.refuse_taken_port(settings.host, settings.port)
    ready_database(settings).close()
    serving.serve(lambda: _say(_addresses(settings)))
    return DONE


@ropewalk.command(epilog="Example: ropewalk start --port 8080 (which `sh deploy/start.sh --port 8080` calls)")
@listening_options
def start() -> int:
    """Make or mend the database, the first time with the demo lessons; say how to get in; serve until Ctrl-C."""
    settings = settings_now()
    serving.refuse_taken_port(settings.host, settings.port)
    _mend(settings, at=datetime.now(UTC))
    with closing(open_database(settings)) as database:
        lines = [*_addresses(settings), *_ways_in(database, settings, at=datetime.now(UTC))]
    serving.serve(lambda: _say(lines))
    return DONE


def _mend(settings: Settings, *, at: datetime) -> None:
    """The database has the tables of this version and, the first time, the demo lessons."""
    newest = numbers()[-1]
    with mended_database(settings) as database:
        here = refuse_newer(database)
        if here != newest:
            _say([f"Bringing the database to migration {newest} ..."])
            migrate_to(database, newest)
        if here is None or not seeding.is_loaded(database):
            _say(["Loading the demo lessons, which are invented (once; some seconds) ..."])
            teachers.first_link(database, at=at)
            seeding.load_demo(database, at=at)


def _ways_in(database: Database, settings: Settings, *, at: datetime) -> list[str]:
    lesson = seeding.under_way(database)
    way_in = _way_in(settings, teachers.first_link(database, at=at))
    return [f"Lesson key: {lesson.lesson_key}", way_in] if lesson else [way_in]


def _addresses(settings: Settings) -> list[str]:
    tablets = serving.tablets_address(settings.host, settings.port)
    lines = [f"Address: {serving.own_address(settings.host, settings.port)}"]
    return lines + ([f"Tablets: {tablets}"] if tablets else [])


def _way_in(settings: Settings, token: str | None) -> str:
    own = serving.own_address(settings.host, settings.port)
    return f"First sign-in: {own}/first/{token}" if token else f"Sign in: {own}/sign-in"


def _say(lines: list[str]) -> None:
    for line in lines:
        click.echo(line)
    sys.stdout.flush()


@ropewalk.command(epilog="Example: ropewalk migrate --to 0001 --lose-data")
@data_option
@click.option("--to", metavar="NUMBER", help="A migration's number, as --show prints them; default the newest.")
@click.option("--show", is_flag=True, help="Only print which migrations there are, and where the database stands.")
@click.option("--lose-data", is_flag=True, help="Allow a step back that loses what newer tables hold.")
def migrate(to: str | None, show: bool, lose_data: bool) -> int:
    """Bring the database to the tables of this version."""
    database = open_database(settings_now())
    here, known = refuse_newer(database), numbers()
    if show:
        _say([f"{number} (here)" if number == here else number for number in known])
        return DONE
    if to is not None and to not in known:
        raise SettingsRefused(f"There is no migration {to}; there are {', '.join(known)}.")
    target = to or known[-1]
    if here is not None and target < here and not lose_data:
        raise SettingsRefused(f"Going back from {here} to {target} would lose data; say --lose-data if you mean it.")
    migrate_to(database, target)
    _say([f"The database stands at migration {target}."])
    return DONE


@ropewalk.group(no_args_is_help=False)
def teacher() -> None:
    """Add a teacher, or give one a new way in."""


def _teacher_options(command: Command) -> Command:
    words = (
        "A file whose first line is the passphrase, 12 characters at least; without it a first sign-in link is made."
    )
    password_file = click.option("--password-file", type=click.File(encoding="utf-8"), metavar="F", help=words)
    named: Command = click.argument("name")(password_file(command))
    return data_option(named)


@teacher.command("add", epilog="Example: ropewalk teacher add moss --password-file passphrase.txt")
@_teacher_options
def teacher_add(name: str, password_file: Any) -> int:
    """Add a teacher who signs in as NAME (1 to 40 characters)."""
    _let_in(teachers.add_teacher, name, password_file)
    return DONE


@teacher.command("reset", epilog="Example: ropewalk teacher reset moss")
@_teacher_options
def teacher_reset(name: str, password_file: Any) -> int:
    """Give the teacher NAME a new way in; the old passphrase and every sign-in end."""
    _let_in(teachers.reset_teacher, name, password_file)
    return DONE


def _let_in(verb: Callable[..., str | None], name: str, password_file: Any) -> None:
    settings = settings_now()
    password = password_file.readline().rstrip("\r\n") if password_file else None
    token = verb(ready_database(settings), name, password=password, at=datetime.now(UTC))
    _say([_way_in(settings, token)])


@ropewalk.command(epilog="Example: ropewalk demo --play")
@data_option
@click.option(
    "--again", is_flag=True, help="Make a fresh copy of the lesson under way, with slips and a key of its own."
)
@click.option("--play", is_flag=True, help=f"Its invented benches read on, one every {PLAY_EVERY_S} s, until Ctrl-C.")
def demo(again: bool, play: bool) -> int:
    """Load the three demo lessons, which are invented, or go on with the one under way."""
    database = ready_database(settings_now())
    if again:
        made = seeding.fresh_copy(database, at=datetime.now(UTC))
        _say([f"Lesson key: {made.lesson_key}"])
    elif not play:
        loaded = seeding.load_demo(database, at=datetime.now(UTC))
        _say(
            [f"Lesson key: {loaded.lesson_key}" if loaded else "The demo lessons are there already; nothing was done."]
        )
        return DONE if loaded else DOUBTS
    return _play(database) if play else DONE


def _play(database: Database) -> int:
    """The invented benches of the lesson under way have read on until all had ended, or until Ctrl-C."""
    lesson = seeding.under_way(database)
    if lesson is None:
        raise SettingsRefused("No demo lesson is under way; `ropewalk demo --again` makes a fresh one.")
    _say([f"Lesson key: {lesson.lesson_key}. Invented benches take readings; Ctrl-C ends it."])
    try:
        while word := seeding.play_one(database, lesson.id, at=datetime.now(UTC)):
            _say([f"{word} ..."])
            time.sleep(PLAY_EVERY_S)
    except KeyboardInterrupt:
        return DONE
    _say(["All invented benches have ended; `ropewalk demo --again` makes a fresh copy."])
    return DONE


@ropewalk.command(epilog="Example: ropewalk export 6f1d4c1e-0b7a-4c55-9d0e-3a1f5b8c2e77 --to lesson.csv")
@data_option
@click.argument("lesson_id")
@click.option("--to", metavar="FILE", type=click.Path(path_type=Path), help="The file to make; ends in .csv.")
def export(lesson_id: str, to: Path | None) -> int:
    """Write the class CSV of the lesson LESSON_ID: one row a reading, masses in g, lengths in mm, forces in N."""
    if to is None or to.suffix.lower() != ".csv":
        raise SettingsRefused("This version writes the class CSV only: say --to with a file whose name ends in .csv.")
    seen = picture.see(ready_database(settings_now()), lesson_id)
    text = files.class_csv(seen.picture)
    try:
        with to.open("x", encoding="utf-8", newline="") as file:
            file.write(text)
    except FileExistsError as why:
        raise SettingsRefused(f"{to} is there already; choose another name.") from why
    except OSError as why:
        raise SettingsRefused(f"{to} can't be written ({why.strerror}).") from why
    _say([f"{to}: {len(text.splitlines()) - 1} readings of {seen.lesson.title}."])
    return DONE


ropewalk.add_command(analyse)
