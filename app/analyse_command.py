"""`ropewalk analyse FILE`: a readings file worked out without a server; a bad one is refused with all that is wrong."""

import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import click

from app.domain import limits
from app.domain.errors import UnreadableFile
from app.domain.vocabulary import DEPTHS, SCALE_WAYS
from app.options import data_option
from app.printing import print_text
from app.services import analysing
from app.services.report import report
from app.settings import SettingsRefused
from app.statuses import DONE, DOUBTS

PROBLEMS_SHOWN = 200
OFFSET_PERCENT = (0.0, 100.0)
_STEERING = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f]")
"""Signs that would steer a terminal; words of a file may hold some."""


def _number(name: str, bounds: tuple[float, float], words: str) -> Callable[[Any], Any]:
    return click.option(f"--{name}", type=click.FloatRange(*bounds), metavar="NUMBER", help=words)


@click.command(epilog="Example: ropewalk analyse class.csv --depth second --gravity 9.81")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object on one line.")
@_number("gravity", limits.GRAVITY, "Gravity in m/s2; without it the file's own, else 9.80665.")
@_number("scale-division-mm", limits.DIVISION_MM, "Smallest division of the scale in mm; else the file's own, else 1.")
@_number(
    "judgement-mm", limits.JUDGEMENT_MM, "Half-width in mm of judging and parallax; else the file's own, else 0.5."
)
@click.option(
    "--scale", type=click.Choice(list(SCALE_WAYS)), help="The way the numbers grow; else the file's, else down."
)
@_number("balance-division-g", limits.BALANCE_DIVISION_G, "Division in g of the balance that weighed every mass.")
@click.option(
    "--depth",
    type=click.Choice(list(DEPTHS)),
    default="first",
    show_default=True,
    help="For whom the words are, and which figures the report shows; changes no number.",
)
@click.option(
    "--offset-strain-percent", type=click.FloatRange(*OFFSET_PERCENT, min_open=True), metavar="NUMBER",
    default=analysing.OFFSET_PERCENT, show_default=True, help="Offset of the offset yield in % of the free length.",
)  # fmt: skip
@data_option
def analyse(file: Path, as_json: bool, depth: str, offset_strain_percent: float, **said: Any) -> int:
    """Work out everything that a readings FILE (CSV) tells: masses in g, lengths in mm, forces in N.

    Prints a report to read; with --json one object for a program. Exit status 0: nothing to look at again; 1: worked
    out as well, with look-again notes, which a clean class CSV may have too; 2: the file or an option was refused.
    """
    limits.within("offset_strain_percent", offset_strain_percent, OFFSET_PERCENT, "%")
    options = analysing.ReadingOptions(gravity_m_per_s2=said.pop("gravity"), **said)
    try:
        found = analysing.analyse(
            _bytes_of(file), options, depth=depth, offset_strain_percent=offset_strain_percent, progress=_progress
        )
    except UnreadableFile as refusal:
        for line in _told(refusal):
            click.echo(line, err=True)
        raise
    if as_json:
        print_text(json.dumps(analysing.as_json(found), allow_nan=False) + "\n")
    else:
        print_text(report(found, file.name, _progress))
    return DOUBTS if found.doubtful else DONE


def _bytes_of(file: Path) -> bytes:
    """What stands in the file, up to a little more than is read; SettingsRefused when it can't be opened."""
    try:
        with file.open("rb") as opened:
            return opened.read(limits.FILE_BYTES + 1)
    except OSError as why:
        raise SettingsRefused(f"{file} can't be read ({why.strerror}).") from why


def _told(refusal: UnreadableFile) -> Iterator[str]:
    """The problems, a line each; where there are very many, how many more."""
    for problem in refusal.problems[:PROBLEMS_SHOWN]:
        yield _STEERING.sub("\ufffd", " ".join(str(problem).split()))
    if (more := len(refusal.problems) - PROBLEMS_SHOWN) > 0:
        yield f"and {more:,} more"


def _progress(words: str) -> None:
    click.echo(f"{words} ...", err=True)
