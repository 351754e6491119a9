"""What a button that moves the lesson asks for, read from its form."""

from typing import Any

from werkzeug.datastructures import MultiDict

Form = MultiDict[str, str]
CODES = ("stage", "front_view", "front_bench")
YES_OR_NO = ("paused", "masses_down", "graph_open")


def stage_asked(form: Form) -> dict[str, Any]:
    """Only what the form names; a blank bench means none."""
    asked: dict[str, Any] = {name: form[name] for name in CODES if name in form}
    if asked.get("front_bench") == "":
        asked["front_bench"] = None
    return asked | {name: form[name] == "true" for name in YES_OR_NO if name in form}
