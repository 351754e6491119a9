"""How gunicorn serves Ropewalk. `ropewalk serve` and start.sh use this file; the numbers come from the settings.

Why two workers, 48 threads and 32 places, and what each costs, stands in DEVELOPERS.md under "The server".
"""

import logging
import os
from pathlib import Path

from gunicorn.glogging import Logger

from app.log import StderrLines
from app.settings import from_environment

_settings = from_environment(os.environ)
_memory = Path("/dev/shm")  # noqa: S108 - a heartbeat file, no secret in it


class ServerLog(Logger):
    """Gunicorn's own messages in the product's form; no access log, since the product writes one without addresses."""

    def setup(self, cfg):
        """The server's messages go out as JSON lines."""
        super().setup(cfg)
        self.error_log.handlers = [StderrLines()]
        # Starting and stopping of processes is news for whoever looks for a fault, not for a teacher.
        if self.loglevel == logging.INFO:
            self.error_log.setLevel(logging.WARNING)

    def access(self, *_):
        """Nothing is written."""


def _listen_at(host, port):
    return f"[{host}]:{port}" if ":" in host else f"{host}:{port}"


bind = _listen_at(_settings.host, _settings.port)
wsgi_app = "app.wsgi:app"
workers = _settings.workers
worker_class = "gthread"
threads = _settings.threads
preload_app = True
keepalive = 30
worker_connections = 2000
backlog = 2048
timeout = 30
graceful_timeout = 10
max_requests = 0
control_socket_disable = True
worker_tmp_dir = str(_memory) if os.access(_memory, os.W_OK) else None
loglevel = _settings.log_level
logger_class = ServerLog
# Who came by https is told by the product's own trusted hops, ROPEWALK_PROXIES, and by nothing else.
secure_scheme_headers = {}


def post_fork(_server, worker):
    """The child forgets the connections of its parent, without closing them."""
    worker.app.wsgi().extensions["ropewalk"].database.close(in_child=True)


def post_worker_init(worker):
    """Held questions can see that this worker is asked to end, and let their pages go."""
    worker.app.wsgi().extensions["ropewalk_alive"] = lambda: worker.alive
