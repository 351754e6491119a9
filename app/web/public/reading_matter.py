"""Pages to read: the words, where the sums come from, the cautions, and what a problem means."""

from flask import render_template

from app.domain import glossary
from app.domain.errors import NotFound
from app.domain.sources import OWN, SOURCES
from app.web.access import for_anyone
from app.web.errors import PROBLEMS
from app.web.public.blueprint import bp

MEANINGS = {
    "not-json": "What was sent could not be read as JSON, or the request itself was malformed.",
    "csrf": "The page that the form came from was open too long, or in another browser. Open the page again; what "
    "was typed is shown, so that it can be sent again.",
    "sign-in-needed": "Nobody is signed in here. A bench takes its bench with its slip; a teacher signs in.",
    "not-this-bench": "A tablet may send for its own bench only, and change its own entries only.",
    "teacher-only": "Only the teacher whose lesson it is may do that.",
    "not-opened": "The teacher has not opened this yet: the class graph, or free text.",
    "unknown-code": "No bench and no lesson has this code. Codes have six letters or digits; none of them is I, L, O, "
    "0 or 1.",
    "not-found": "Nothing is at this address, or not for whoever asked.",
    "wrong-method": "The address is right, the way of asking is not.",
    "bench-taken": "Another tablet took this bench with its slip. Use the bench slip to carry on here.",
    "entry-reused": "Every entry has an id of its own. This id was used before, for something else.",
    "sealed": "A guess counts when it is made before the first mass is read.",
    "masses-down": "Readings are closed for all. The teacher can open a bench again.",
    "lesson-over": "The lesson is over or on the shelf. The teacher can take it off the shelf; until then the tablet "
    "keeps what was typed.",
    "already-here": "It is here already, so nothing was done.",
    "in-use": "Something hangs on it: it can be changed, not taken away.",
    "stale": "Someone changed it since it was read. Look at it again, then change it.",
    "too-large": "More was sent at once than is taken: 64 kB.",
    "wrong-kind": "The content has another type than this address takes.",
    "invalid-entry": "Something typed is no number, outside what can be, or not in the list. The sentence beside the "
    "field says what. Nothing else was lost.",
    "unreadable-file": "The file is broken, or is none of the kinds that are read.",
    "too-many": "Too many tries from one place in a short time. Wait, then try again.",
    "broke": "A fault of the product. The log has the reference. What was typed on a tablet is kept there.",
    "busy": "The server or its database did not get to it in time. Send the same entry again: it counts once.",
}


@bp.get("/words")
@for_anyone
def words() -> str:
    """What the words of the pages mean."""
    return render_template("public/words.html", ours=glossary.OURS, trade=glossary.TRADE)


@bp.get("/sources")
@for_anyone
def sources() -> str:
    """Where the sums come from."""
    return render_template("public/sources.html", sources=SOURCES, own=OWN)


@bp.get("/cautions")
@for_anyone
def cautions() -> str:
    """Reminders for a test with masses that fall."""
    return render_template("public/cautions.html")


@bp.get("/problems/<name>")
@for_anyone
def problem(name: str) -> str:
    """What a problem of that name means."""
    if name not in PROBLEMS:
        raise NotFound("There is no problem of that name.")
    status, title = PROBLEMS[name]
    return render_template("public/problem.html", name=name, status=status, title=title, words=MEANINGS[name])
