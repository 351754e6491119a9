"""Under which address tablets find this server."""

from urllib.parse import urlsplit

from flask import request

from app.services.network import network_address


def tablets_root() -> str:
    """The server's address as this request reached it; asked on the server's own machine, its address in the network.

    Without a network it stays as it is.
    """
    asked = request.url_root.rstrip("/")
    parts = urlsplit(asked)
    name = parts.hostname or ""
    own = name in ("localhost", "::1") or name.startswith("127.")
    found = network_address() if own else None
    at = f":{parts.port}" if parts.port else ""
    return f"{parts.scheme}://{found}{at}" if found else asked
