"""Where the server listens, under which addresses people find it, and gunicorn in this very process.

In this process, since its imports are half of a start; the app itself is loaded by gunicorn, before it forks.
"""

import errno
import json
import socket
import time
import urllib.request
from collections.abc import Callable
from typing import Any

from gunicorn.app.base import Application
from gunicorn.util import import_app

from app.services.network import network_address as _network_address
from app.settings import CODE_FOLDER, SettingsRefused

EVERYWHERE = ("0.0.0.0", "::")  # noqa: S104 - compared with, not bound to


ORPHANS_S = 8.0
"""How long the workers of a server that was killed may go on before they see that they are alone."""


def refuse_taken_port(host: str, port: int) -> None:
    """Nothing, or SettingsRefused with a sentence when nobody could listen there.

    A Ropewalk that still answers there may be the rest of one that was killed: it is given the time to end.
    """
    until = time.monotonic() + ORPHANS_S
    while True:
        try:
            _try_port(host, port)
        except SettingsRefused:
            if time.monotonic() > until or not _is_ours(host, port):
                raise
            time.sleep(0.2)
        else:
            return


def _is_ours(host: str, port: int) -> bool:
    try:
        with urllib.request.urlopen(f"{own_address(host, port)}/healthz", timeout=1) as answer:  # noqa: S310
            return bool(json.load(answer) == {"ok": True})
    except (OSError, ValueError):
        return False


def _try_port(host: str, port: int) -> None:
    try:
        family, kind, protocol, _, address = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0]
        with socket.socket(family, kind, protocol) as probe:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            probe.bind(address)
    except OSError as why:
        raise SettingsRefused(_why_not_there(host, port, why)) from why


def own_address(host: str, port: int) -> str:
    """Where a browser on this computer finds the server."""
    return _address("127.0.0.1" if host in EVERYWHERE else host, port)


def tablets_address(host: str, port: int) -> str | None:
    """Where tablets find the server; None without a network, or when the server listens for this computer alone."""
    if host in EVERYWHERE:
        found = _network_address()
        return _address(found, port) if found else None
    return None if host == "localhost" or host.startswith("127.") or host == "::1" else _address(host, port)


def serve(when_ready: Callable[[], None]) -> None:
    """Gunicorn has served until it was told to end; `when_ready` is called once, when it listens."""
    _Gunicorn(when_ready).run()


class _Gunicorn(Application):  # type: ignore[misc] # gunicorn tells no types
    def __init__(self, when_ready: Callable[[], None]) -> None:
        self._when_ready = when_ready
        super().__init__()

    def load_config(self) -> None:
        """The settings of deploy/gunicorn.conf.py, and nothing from a command line or a variable of gunicorn's own."""
        self.load_config_from_file(str(CODE_FOLDER / "deploy" / "gunicorn.conf.py"))
        self.cfg.set("when_ready", lambda _server: self._when_ready())

    def load(self) -> Any:
        """The app object."""
        return import_app(self.cfg.wsgi_app)


def _why_not_there(host: str, port: int, why: OSError) -> str:
    if why.errno == errno.EADDRINUSE:
        return f"Port {port} is in use by another program; stop that one, or choose another port with ROPEWALK_PORT."
    if why.errno in (errno.EACCES, errno.EPERM):
        return f"Port {port} is not yours to listen on; choose one over 1023 with ROPEWALK_PORT."
    return f"Nobody can listen on {host}: this computer has no such address; look at ROPEWALK_HOST."


def _address(host: str, port: int) -> str:
    return f"http://[{host}]:{port}" if ":" in host else f"http://{host}:{port}"
