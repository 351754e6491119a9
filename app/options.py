"""Options of commands that stand for variables: what is given is set in the environment, which everything reads."""

import os
from collections.abc import Callable
from typing import Any

import click

Command = Callable[..., Any]
Decorator = Callable[[Command], Command]


def _option(name: str, metavar: str, kind: Any, *, words: str) -> Decorator:
    """The option --NAME, which stands for ROPEWALK_NAME."""

    def given(_context: click.Context, _parameter: click.Parameter, value: Any) -> Any:
        if value is not None:
            os.environ[f"ROPEWALK_{name.upper()}"] = str(value)
        return value

    words = f"{words} Stands for ROPEWALK_{name.upper()}."
    return click.option(f"--{name}", type=kind, callback=given, expose_value=False, metavar=metavar, help=words)


data_option = _option("data", "FOLDER", click.Path(), words="The folder of database and secret.")

_LISTENING = (
    data_option,
    _option("workers", "N", click.IntRange(1, 32), words="Processes that answer."),
    _option("port", "N", click.IntRange(1, 65_535), words="Port number."),
    _option("host", "H", str, words="Address to listen on; 127.0.0.1 keeps tablets out."),
)


def listening_options(command: Command) -> Command:
    """The command takes the options that say where and how the server listens."""
    for option in _LISTENING:
        command = option(command)
    return command
