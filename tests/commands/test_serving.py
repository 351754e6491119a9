"""Where the server listens and what it says of that."""

import socket
from collections.abc import Iterator

import pytest

from app import serving
from app.settings import SettingsRefused


@pytest.fixture
def taken_port() -> Iterator[int]:
    """A port that somebody listens on."""
    with socket.create_server(("127.0.0.1", 0)) as listener:
        yield listener.getsockname()[1]


def free_port() -> int:
    with socket.create_server(("127.0.0.1", 0)) as listener:
        return int(listener.getsockname()[1])


def test_a_free_port_is_fine_and_stays_free() -> None:
    port = free_port()
    serving.refuse_taken_port("127.0.0.1", port)
    serving.refuse_taken_port("0.0.0.0", port)


@pytest.mark.parametrize("host", ["127.0.0.1", "0.0.0.0"])
def test_a_taken_port_is_a_sentence(taken_port: int, host: str) -> None:
    with pytest.raises(SettingsRefused, match=f"Port {taken_port} is in use"):
        serving.refuse_taken_port(host, taken_port)


@pytest.mark.parametrize("host", ["203.0.113.9", "no-such-name.invalid"])
def test_an_address_of_another_computer_is_a_sentence(host: str) -> None:
    with pytest.raises(SettingsRefused, match="no such address"):
        serving.refuse_taken_port(host, free_port())


def test_listening_everywhere_this_computer_finds_itself_and_tablets_the_network(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(serving, "_network_address", lambda: "192.168.1.20")
    assert serving.own_address("0.0.0.0", 8000) == "http://127.0.0.1:8000"
    assert serving.tablets_address("0.0.0.0", 8000) == "http://192.168.1.20:8000"


def test_without_a_network_there_is_no_address_for_tablets(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(serving, "_network_address", lambda: None)
    assert serving.tablets_address("0.0.0.0", 8000) is None


@pytest.mark.parametrize("host", ["127.0.0.1", "localhost", "::1"])
def test_a_server_for_this_computer_alone_has_none_for_tablets(host: str) -> None:
    assert serving.tablets_address(host, 8000) is None


def test_one_address_is_told_as_it_is() -> None:
    assert serving.own_address("192.168.1.20", 81) == "http://192.168.1.20:81"
    assert serving.tablets_address("192.168.1.20", 81) == "http://192.168.1.20:81"
    assert serving.own_address("fd00::1", 81) == "http://[fd00::1]:81"


def test_the_network_address_is_one_of_this_computer_s() -> None:
    found = serving._network_address()
    if found is not None:
        with socket.create_server((found, 0)) as listener:
            assert listener.getsockname()[0] == found
