"""Settings: one frozen object, read once from the environment and handed to whoever assembles the product.

Only assemblers (create_app, commands, gunicorn's file, migrations) read it; everything else is given plain values.
"""

import os
import secrets
from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from pathlib import Path
from urllib.parse import urlsplit

SECRET_LEAST = 32
EVERYWHERE = "0.0.0.0"  # noqa: S104 - tablets must reach it
LOG_LEVELS = ("debug", "info", "warning", "error")
NETWORK_DRIVES = frozenset({"nfs", "nfs4", "cifs", "smb3", "smbfs", "afs", "ncpfs", "fuse.sshfs", "davfs"})
CODE_FOLDER = Path(__file__).resolve().parent.parent


class SettingsRefused(Exception):
    """A setting that can't be used; the sentence says which and what to do."""

    def __init__(self, sentence: str) -> None:
        super().__init__(sentence)
        self.sentence = sentence


def _about(variable: str, unit: str, default: str, meaning: str) -> dict[str, str]:
    return {"variable": f"ROPEWALK_{variable}", "unit": unit, "default": default, "meaning": meaning}


@dataclass(frozen=True, kw_only=True)
class Settings:
    """Everything that can be set, each field with its variable, unit, default and meaning in its metadata."""

    data_folder: Path = field(
        default=CODE_FOLDER / ".data",
        metadata=_about("DATA", "folder", ".data/ beside the code", "Where database, secret and backups lie."),
    )
    database_url: str | None = field(
        default=None,
        repr=False,
        metadata=_about(
            "DATABASE_URL",
            "URL",
            "ropewalk.sqlite in the data folder",
            "A shared PostgreSQL database, as postgresql+psycopg://...; without it the SQLite file is used.",
        ),
    )
    secret_key: str = field(
        default="",
        repr=False,
        metadata=_about(
            "SECRET_KEY",
            f"{SECRET_LEAST} characters at least",
            "secret_key in the data folder, made once",
            "Signs cookies; whoever has it can sign in as anyone.",
        ),
    )
    host: str = field(
        default=EVERYWHERE,
        metadata=_about("HOST", "address", EVERYWHERE, "Where to listen; 127.0.0.1 keeps tablets out."),
    )
    port: int = field(default=8000, metadata=_about("PORT", "port number", "8000", "The port to listen on."))
    workers: int = field(default=2, metadata=_about("WORKERS", "processes", "2", "How many processes answer requests."))
    threads: int = field(
        default=48,
        metadata=_about("THREADS", "threads a worker", "48", "How many requests one worker answers at once."),
    )
    places: int = field(
        default=32,
        metadata=_about(
            "PLACES",
            "held questions a worker",
            "32",
            "How many pages may have their question held; always fewer than the threads.",
        ),
    )
    hold_s: int = field(
        default=20, metadata=_about("HOLD_S", "s", "20", "How long a question is held when nothing is new.")
    )
    proxies: int = field(
        default=0, metadata=_about("PROXIES", "hops", "0", "How many proxies of your own stand in front.")
    )
    hosts: tuple[str, ...] = field(
        default=(),
        metadata=_about("HOSTS", "host names, comma between", "any", "The host names that a request may ask for."),
    )
    log_level: str = field(
        default="info",
        metadata=_about("LOG_LEVEL", "one of " + ", ".join(LOG_LEVELS), "info", "The least level that is logged."),
    )

    @property
    def database_path(self) -> Path:
        """The SQLite file, used while `database_url` is None."""
        return self.data_folder / "ropewalk.sqlite"


def from_environment(environ: Mapping[str, str], data: Path | str | None = None) -> Settings:
    """The settings that the environment asks for; the data folder exists, can be written and keeps a secret.

    `data` stands for ROPEWALK_DATA. An empty variable counts as not set. Raises SettingsRefused with a sentence.
    """
    folder = Path(data or environ.get("ROPEWALK_DATA") or Settings.data_folder).expanduser().absolute()
    database_url = _database_url(environ)
    _open_folder(folder)
    if database_url is None:
        _refuse_network_drive(folder)
    threads = _count(environ, "ROPEWALK_THREADS", Settings.threads, between=(4, 500))
    return Settings(
        data_folder=folder,
        database_url=database_url,
        secret_key=_secret(environ, folder),
        host=environ.get("ROPEWALK_HOST", "").strip() or Settings.host,
        port=_count(environ, "ROPEWALK_PORT", Settings.port, between=(1, 65_535)),
        workers=_count(environ, "ROPEWALK_WORKERS", Settings.workers, between=(1, 32)),
        threads=threads,
        places=_count(environ, "ROPEWALK_PLACES", min(Settings.places, threads - 1), between=(0, threads - 1)),
        hold_s=_count(environ, "ROPEWALK_HOLD_S", Settings.hold_s, between=(0, 120)),
        proxies=_count(environ, "ROPEWALK_PROXIES", Settings.proxies, between=(0, 9)),
        hosts=tuple(name.strip() for name in environ.get("ROPEWALK_HOSTS", "").split(",") if name.strip()),
        log_level=_level(environ),
    )


def described() -> list[dict[str, str]]:
    """What each setting is, in order: name, variable, unit, default and meaning."""
    return [{"name": one.name, **one.metadata} for one in fields(Settings)]


def _count(environ: Mapping[str, str], variable: str, default: int, *, between: tuple[int, int]) -> int:
    typed = environ.get(variable, "").strip()
    if not typed:
        return default
    low, high = between
    if not (typed.isascii() and typed.isdigit() and len(typed) < 10 and low <= int(typed) <= high):
        raise SettingsRefused(f"{variable} is {typed[:40]!r}; it has to be a whole number from {low} to {high}.")
    return int(typed)


def _level(environ: Mapping[str, str]) -> str:
    level = environ.get("ROPEWALK_LOG_LEVEL", "").strip().lower() or Settings.log_level
    if level not in LOG_LEVELS:
        raise SettingsRefused(f"ROPEWALK_LOG_LEVEL is {level[:40]!r}; it has to be one of {', '.join(LOG_LEVELS)}.")
    return level


def _database_url(environ: Mapping[str, str]) -> str | None:
    url = environ.get("ROPEWALK_DATABASE_URL", "").strip()
    if not url:
        return None
    if not url.startswith("postgresql+psycopg://"):
        raise SettingsRefused(
            "ROPEWALK_DATABASE_URL has to begin with postgresql+psycopg://; leave it empty to use the SQLite file."
        )
    try:
        urlsplit(url).port  # noqa: B018 - reading it is the test
    except ValueError as why:
        raise SettingsRefused("ROPEWALK_DATABASE_URL is not an address: its port has to be a number.") from why
    return url


def _open_folder(folder: Path) -> None:
    """The folder exists and a file can be made in it."""
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as why:
        raise SettingsRefused(f"The data folder {folder} can't be made ({why.strerror}).") from why
    if not os.access(folder, os.W_OK | os.X_OK):
        raise SettingsRefused(
            f"The data folder {folder} can't be written; give yourself the right, or set ROPEWALK_DATA."
        )


def _refuse_network_drive(folder: Path) -> None:
    """Nothing, unless the mount table says that the folder lies on another computer: SQLite loses data there."""
    try:
        mounts = Path("/proc/self/mounts").read_text(encoding="utf-8", errors="replace").splitlines()
    except OSError:
        return
    kinds = {mount: kind for _, mount, kind, *_ in (line.split(" ") for line in mounts if line.count(" ") > 2)}
    for place in (folder.resolve(), *folder.resolve().parents):
        kind = kinds.get(str(place).replace(" ", "\\040"))
        if kind in NETWORK_DRIVES:
            raise SettingsRefused(
                f"The data folder {folder} lies on a network drive ({kind}), where the database would come to harm; "
                "set ROPEWALK_DATA to a folder on this computer's own disk."
            )
        if kind is not None:
            return


def _secret(environ: Mapping[str, str], folder: Path) -> str:
    given = environ.get("ROPEWALK_SECRET_KEY", "")
    secret = given or _kept_secret(folder / "secret_key")
    if len(secret) < SECRET_LEAST:
        where = "ROPEWALK_SECRET_KEY" if given else f"The secret in {folder / 'secret_key'}"
        raise SettingsRefused(f"{where} is shorter than {SECRET_LEAST} characters; take a longer one, or remove it.")
    return secret


def _kept_secret(path: Path) -> str:
    """The secret in the file, which only its owner can read; made if there is none."""
    try:
        if not path.exists():
            _make_secret(path)
        if path.stat().st_mode & 0o077:
            path.chmod(0o600)
        return path.read_text(encoding="utf-8").strip()
    except (OSError, UnicodeDecodeError) as why:
        raise SettingsRefused(f"The secret in {path} can't be read or made ({why}).") from why


def _make_secret(path: Path) -> None:
    """The file holds a whole new secret: written beside it first, so that a cut start leaves no half of one."""
    beside = path.with_name(f"{path.name}.{os.getpid()}")
    handle = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
    with os.fdopen(handle, "w", encoding="utf-8") as file:
        file.write(secrets.token_urlsafe(48) + "\n")
    beside.replace(path)
