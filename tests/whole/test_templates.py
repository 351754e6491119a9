"""Nothing lies about: each template is rendered, each macro used, each style and script on some page."""

import re
from pathlib import Path

import pytest

from tests.whole.source import APP, modules

TEMPLATES = sorted((APP / "templates").rglob("*.html"))
STATIC = APP / "static"
NAMED = re.compile(r"[\"']([\w/.-]+\.html)[\"']")
IMPORTED = re.compile(r"{%-?\s*from\s+[\"'][^\"']+[\"']\s+import\s+([^%]+?)\s*-?%}")
MACRO = re.compile(r"{%-?\s*macro\s+(\w+)")
SCRIPT_IMPORT = re.compile(r"(?:from\s+|import\s*\(?\s*)[\"']\./([\w.-]+\.js)[\"']")
NOT_TEXT = re.compile(r"{#.*?#}", re.DOTALL)


def _text(path: Path) -> str:
    return NOT_TEXT.sub("", path.read_text(encoding="utf-8"))


def _name(path: Path) -> str:
    return path.relative_to(APP / "templates").as_posix()


def _macros(text: str) -> list[str]:
    """The names that a template imports, as it calls them."""
    named = [part.strip() for group in IMPORTED.findall(text) for part in group.split(",")]
    return [re.sub(r"\s+with(?:out)? context$", "", name).split(" as ")[-1].strip() for name in named]


def test_every_template_is_rendered_by_something() -> None:
    users = [module.text for module in modules()] + [_text(path) for path in TEMPLATES]
    named = {name for text in users for name in NAMED.findall(text)}
    lying_about = [_name(path) for path in TEMPLATES if _name(path) not in named]
    assert not lying_about


def test_every_template_named_is_there() -> None:
    named = {name for path in TEMPLATES for name in NAMED.findall(_text(path))}
    assert named <= {_name(path) for path in TEMPLATES}


@pytest.mark.parametrize("path", TEMPLATES, ids=_name)
def test_every_macro_imported_is_used(path: Path) -> None:
    rest = IMPORTED.sub("", _text(path))
    unused = [name for name in _macros(_text(path)) if not re.search(rf"\b{name}\b", rest)]
    assert not unused


def test_every_macro_is_used_somewhere() -> None:
    texts = {path: _text(path) for path in TEMPLATES}
    unused = [
        f"{_name(path)}: {macro}"
        for path, text in texts.items()
        for macro in MACRO.findall(text)
        if sum(len(re.findall(rf"\b{macro}\b", other)) for other in texts.values()) < 2
    ]
    assert not unused


def test_every_style_and_script_is_on_some_page() -> None:
    texts = [_text(path) for path in TEMPLATES] + [module.text for module in modules()]
    scripts = {path: path.read_text(encoding="utf-8") for path in STATIC.rglob("*.js")}
    asked = {name for text in texts for name in re.findall(r"[\"']((?:css|js)/[\w./-]+)[\"']", text)}
    asked |= {f"js/{name}" for text in scripts.values() for name in SCRIPT_IMPORT.findall(text)}
    there = {path.relative_to(STATIC).as_posix() for path in STATIC.rglob("*.*") if path.suffix in (".css", ".js")}
    assert not there - asked, f"on no page: {sorted(there - asked)}"
    assert not asked - there, f"asked for and not there: {sorted(asked - there)}"


@pytest.mark.parametrize("path", TEMPLATES, ids=_name)
def test_templates_hold_no_script_and_no_style(path: Path) -> None:
    """The strict policy of every page would keep it from working."""
    text = _text(path)
    inline = re.findall(r"<style|\sstyle=|\son\w+=|javascript:|<script(?![^>]*\bsrc=)(?![^>]*application/json)", text)
    assert not inline
