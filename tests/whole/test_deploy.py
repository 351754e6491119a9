"""What lies in deploy/ and the locks: each file is parsed, and says what the code says."""

import configparser
import json
import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from app import commands
from app.settings import described, from_environment

ROOT = Path(__file__).resolve().parents[2]
SCRIPTS = sorted([*(ROOT / "deploy").glob("*.sh"), ROOT / ".ci" / "run"])
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
LOCKS = {
    "requirements.lock": PROJECT["dependencies"],
    "requirements-test.lock": PROJECT["dependencies"] + PROJECT["optional-dependencies"]["test"],
}
PINNED = re.compile(r"^(?P<name>[a-z0-9.-]+)==(?P<version>[^ ;]+)(?P<marker> ; [^\\]+)? \\$", re.M)


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda path: path.name)
def test_a_script_is_posix_shell(script: Path) -> None:
    """Parsed by sh, without the words that only one shell knows; by checkbashisms too where that is installed."""
    text = script.read_text()
    assert subprocess.run(["sh", "-n", script], capture_output=True, check=False).returncode == 0
    code = re.sub(r"(?m)(^|\s)#.*$", "", text)
    for word in (
        r"\[\[",
        r"\blocal\b",
        r"\bfunction\b",
        r"\bsource\b",
        r"\bpipefail\b",
        r"<<<",
        r"&>",
        r"\becho -[en]",
    ):
        assert not re.search(word, code), word
    if shutil.which("checkbashisms"):
        assert subprocess.run(["checkbashisms", "-f", script], capture_output=True, check=False).returncode in (0, 2)


def test_ci_calls_the_check_and_nothing_else() -> None:
    code = [line for line in (ROOT / ".ci" / "run").read_text().splitlines() if not line.startswith("#")]
    assert code == ['cd -- "$(dirname -- "$0")/.." && exec sh deploy/check.sh']
    assert os.access(ROOT / ".ci" / "run", os.X_OK)


@pytest.mark.parametrize("name", LOCKS)
def test_the_lock_holds_every_dependency_within_its_bounds(name: str) -> None:
    pinned: dict[str, list[str]] = {}
    for found in PINNED.finditer((ROOT / name).read_text()):
        pinned.setdefault(canonicalize_name(found["name"]), []).append(found["version"])
    for wanted in map(Requirement, LOCKS[name]):
        versions = pinned.get(canonicalize_name(wanted.name), [])
        assert versions, f"{wanted.name} is not in {name}: make the lock again"
        assert all(wanted.specifier.contains(version) for version in versions), f"{wanted} against {versions}"


@pytest.mark.parametrize("name", LOCKS)
def test_the_lock_has_hashes_for_all_and_no_address(name: str) -> None:
    text = (ROOT / name).read_text()
    for block in re.split(r"\n(?=[a-z])", text)[1:]:
        assert PINNED.match(block), block[:60]
        assert "--hash=sha256:" in block
    assert not re.search(r"://|--index|--find-links|--trusted|file:| @ ", text)
    assert text.startswith("# Made by: uv pip compile --universal --generate-hashes --python-version 3.11 ")


def test_the_test_lock_pins_what_the_served_lock_pins() -> None:
    """The very same, or what is served on some machines only and tested on all of them."""
    served, tested = (PINNED.findall((ROOT / name).read_text()) for name in LOCKS)
    everywhere = {pin[:2] for pin in tested if not pin[2]}
    assert {pin for pin in served if pin[:2] not in everywhere} <= set(tested)


def gunicorn_settings(tmp_path: Path, **environ: str) -> dict[str, object]:
    """What the settings file of gunicorn comes to in a process with that environment."""
    code = (
        "import json, runpy; found = runpy.run_path('deploy/gunicorn.conf.py'); "
        "print(json.dumps({k: v for k, v in found.items() if k[0] != '_' and isinstance(v, str | int | dict | None)}))"
    )
    told = subprocess.run(
        [sys.executable, "-c", code],
        cwd=ROOT,
        env={**os.environ, "ROPEWALK_DATA": str(tmp_path), "PYTHONPATH": str(ROOT), **environ},
        capture_output=True,
        check=True,
        text=True,
    )
    found: dict[str, object] = json.loads(told.stdout)
    return found


def test_gunicorn_is_set_as_measured(tmp_path: Path) -> None:
    """Source: stack.md 3, whose numbers were measured."""
    found = gunicorn_settings(tmp_path)
    assert found.pop("worker_tmp_dir") == ("/dev/shm" if os.access("/dev/shm", os.W_OK) else None)
    assert found == {
        "bind": "0.0.0.0:8000",
        "workers": 2,
        "threads": 48,
        "worker_class": "gthread",
        "preload_app": True,
        "keepalive": 30,
        "worker_connections": 2000,
        "backlog": 2048,
        "timeout": 30,
        "graceful_timeout": 10,
        "max_requests": 0,
        "control_socket_disable": True,
        "wsgi_app": "app.wsgi:app",
        "loglevel": "info",
        "secure_scheme_headers": {},
    }


def test_gunicorn_listens_where_the_settings_say(tmp_path: Path) -> None:
    found = gunicorn_settings(tmp_path, ROPEWALK_HOST="::1", ROPEWALK_PORT="8123", ROPEWALK_WORKERS="3")
    assert (found["bind"], found["workers"]) == ("[::1]:8123", 3)


def test_the_service_runs_commands_that_there_are() -> None:
    unit = configparser.ConfigParser(strict=False, interpolation=None, comment_prefixes=("#",))
    unit.optionxform = str  # type: ignore[assignment, method-assign]
    unit.read(ROOT / "deploy" / "ropewalk.service")
    assert list(unit) == ["DEFAULT", "Unit", "Service", "Install"]
    for key in ("ExecStartPre", "ExecStart"):
        program, command = unit["Service"][key].split()
        assert program == "/opt/ropewalk/.venv/bin/ropewalk"
        assert command in commands.ropewalk.commands
    named = re.findall(r"^Environment=(ROPEWALK_\w+)", (ROOT / "deploy" / "ropewalk.service").read_text(), re.M)
    assert set(named) <= {one["variable"] for one in described()}
    assert unit["Service"]["User"] != "root"


def test_held_answers_pass_the_proxy_example(tmp_path: Path) -> None:
    """A question is held for `hold_s` and a tenth more; source: stack.md 4."""
    text = (ROOT / "deploy" / "reverse-proxy.conf").read_text()
    code = re.sub(r"#.*", "", text)
    assert code.count("{") == code.count("}")
    settings = from_environment({}, tmp_path)
    held_s = settings.hold_s * 1.1
    said = dict(re.findall(r"^\s*(\w+) ([^;{]+);", code, re.M))
    assert float(said["proxy_read_timeout"].rstrip("s")) > held_s
    assert float(said["keepalive_timeout"].rstrip("s")) < 30
    assert said["proxy_buffering"] == "off"
    assert said["proxy_next_upstream"] == "off"
    assert f":{settings.port};" in code
    for variable in re.findall(r"ROPEWALK_\w+", text):
        assert variable in {one["variable"] for one in described()}


@pytest.mark.parametrize("document", ["README.md", "DEVELOPERS.md", "deploy/README.md"])
def test_a_document_names_only_settings_and_files_that_there_are(document: str) -> None:
    text = (ROOT / document).read_text()
    known = {one["variable"] for one in described()}
    known |= {"ROPEWALK_CHROMIUM", "ROPEWALK_POSTGRES_BIN", "ROPEWALK_TEST_POSTGRES"}
    assert set(re.findall(r"ROPEWALK_[A-Z_]+", text)) <= known
    for path in re.findall(r"\bdeploy/[\w.-]+\w", text):
        assert (ROOT / path).exists(), path


def test_every_setting_and_command_is_in_the_documents() -> None:
    text = "".join((ROOT / name).read_text() for name in ("README.md", "DEVELOPERS.md", "deploy/README.md"))
    for one in described():
        assert one["variable"] in text, one["variable"]
    for name in [*commands.ropewalk.commands, *(f"teacher {one}" for one in commands.teacher.commands)]:
        assert f"ropewalk {name}" in text, name
