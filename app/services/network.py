"""The address under which this computer is found in its network."""

import socket

NEARBY = ("192.0.2.1", "10.254.254.254", "172.30.254.254", "192.168.254.254")
"""Addresses asked after, never sent to: the way to one of them shows this computer's own."""


def network_address() -> str | None:
    """This computer's address in its network; None without one."""
    for far in NEARBY:
        try:
            with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
                probe.connect((far, 9))
                found = str(probe.getsockname()[0])
        except OSError:
            continue
        if not found.startswith("127."):
            return found
    return None
