"""Under which address tablets find the server: as it was asked, unless that leads to the asking machine itself."""

import pytest
from flask import Flask

from app.web.nearby import tablets_root


@pytest.fixture
def database_kind() -> str:
    """No row is looked at."""
    return "sqlite"


def root(app: Flask, asked: str) -> str:
    with app.test_request_context("/", base_url=asked):
        return tablets_root()


@pytest.fixture
def in_a_network(monkeypatch: pytest.MonkeyPatch) -> None:
    """This computer is 192.168.1.20 in its network."""
    monkeypatch.setattr("app.web.nearby.network_address", lambda: "192.168.1.20")


@pytest.mark.usefixtures("in_a_network")
@pytest.mark.parametrize("asked", ["http://rope.test:8000", "https://rope.test", "http://192.168.7.7:81"])
def test_as_it_was_asked(app: Flask, asked: str) -> None:
    assert root(app, asked) == asked


@pytest.mark.usefixtures("in_a_network")
@pytest.mark.parametrize("own", ["http://localhost:8000", "http://127.0.0.1:8000", "http://[::1]:8000"])
def test_asked_on_the_server_itself_it_is_the_network_s_address(app: Flask, own: str) -> None:
    assert root(app, own) == "http://192.168.1.20:8000"


def test_without_a_network_it_stays_as_it_is(app: Flask, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("app.web.nearby.network_address", lambda: None)
    assert root(app, "http://localhost:8000") == "http://localhost:8000"
