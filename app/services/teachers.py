"""Teachers: made by a command, let in by a first link, held by a passphrase; tries that fail are counted."""

import hashlib
import secrets
import uuid
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import cache

from werkzeug.security import check_password_hash, generate_password_hash

from app.domain.errors import AlreadyHere, NotFound, SignInNeeded, TooMany, UnknownCode, fault
from app.domain.limits import PASSWORD_LEAST, PASSWORD_MOST, WRONG_CODES_PER_MINUTE, WRONG_PASSWORDS_PER_10_MIN
from app.store import teachers as rows
from app.store.database import Database

FIRST_NAME = "teacher"
NAME_MOST = 40


@dataclass(frozen=True, kw_only=True)
class SignedIn:
    """A teacher who is in; `stamp` changes with the passphrase, so that old sign-ins end with it."""

    teacher_id: str
    sign_in_name: str
    stamp: str


@dataclass(frozen=True, kw_only=True)
class Tries:
    """How often something may fail from one place before it has to wait."""

    what: str
    most: int
    within_s: int


CODES = Tries(what="code", most=WRONG_CODES_PER_MINUTE, within_s=60)
PASSWORDS = Tries(what="password", most=WRONG_PASSWORDS_PER_10_MIN, within_s=600)


def token_hash(token: str) -> str:
    """What is stored of a random token: it can't be turned back."""
    return hashlib.sha256(token.encode()).hexdigest()


def add_teacher(database: Database, sign_in_name: str, *, password: str | None, at: datetime) -> str | None:
    """The teacher is there; without a passphrase the token of a first sign-in link is returned, else None."""
    _check_name(sign_in_name)
    token, way_in = _new_way_in(password, at)
    with database.transaction() as session:
        if rows.by_name(session, sign_in_name):
            raise AlreadyHere(f"There is a teacher called {sign_in_name} already.")
        teacher = rows.Teacher(id=str(uuid.uuid4()), sign_in_name=sign_in_name, made_at=at)
        session.add(teacher)
        way_in.give(teacher)
    return token


def reset_teacher(database: Database, sign_in_name: str, *, password: str | None, at: datetime) -> str | None:
    """The teacher's old passphrase opens nothing; a new one is set, or the token of a fresh first link returned."""
    token, way_in = _new_way_in(password, at)
    with database.transaction() as session:
        teacher = rows.by_name(session, sign_in_name)
        if teacher is None:
            raise NotFound(f"There is no teacher called {sign_in_name}.")
        way_in.give(teacher)
    return token


def first_link(database: Database, *, at: datetime) -> str | None:
    """A fresh token for the first teacher as long as no passphrase is set; None when it is."""
    with database.reading() as session:
        teacher = rows.by_name(session, FIRST_NAME)
    if teacher is None:
        return add_teacher(database, FIRST_NAME, password=None, at=at)
    if teacher.password_hash is not None:
        return None
    return reset_teacher(database, FIRST_NAME, password=None, at=at)


def whose_first_link(database: Database, token: str) -> str:
    """The name of the teacher whom a first link lets in; UnknownCode when it has done its work."""
    with database.reading() as session:
        teacher = rows.by_first_hash(session, token_hash(token))
        if teacher is None:
            raise UnknownCode("This link has done its work, or was never one. Sign in, or ask for a new one.")
        return teacher.sign_in_name


def set_first_password(database: Database, token: str, password: str, *, at: datetime) -> SignedIn:
    """The passphrase is set, the link opens no more, and its teacher is in."""
    _, way_in = _new_way_in(password, at)
    with database.transaction() as session:
        teacher = rows.by_first_hash(session, token_hash(token))
        if teacher is None:
            raise UnknownCode("This link has done its work. Sign in with your passphrase.")
        way_in.give(teacher)
        return _signed_in(teacher)


def change_password(database: Database, teacher_id: str, *, old: str, new: str, at: datetime) -> SignedIn:
    """The teacher's passphrase is the new one; every other sign-in of theirs ends."""
    _, way_in = _new_way_in(new, at)
    with database.reading() as session:
        before = rows.by_id(session, teacher_id)
    if not _fits(before, old):
        raise fault("old_password", "That is not your passphrase of now.")
    with database.transaction() as session:
        teacher = session.get_one(rows.Teacher, teacher_id)
        way_in.give(teacher)
        return _signed_in(teacher)


def sign_in(database: Database, sign_in_name: str, password: str, *, from_hash: str, at: datetime) -> SignedIn:
    """The teacher is in; SignInNeeded when name and passphrase don't fit, TooMany after too many tries for one name."""
    check_tries(database, PASSWORDS, from_hash, at=at)
    with database.reading() as session:
        teacher = rows.by_name(session, sign_in_name[:NAME_MOST])
    if not _fits(teacher, password) or teacher is None or teacher.off_at is not None:
        note_failure(database, PASSWORDS, from_hash, at=at)
        raise SignInNeeded("That name and passphrase don't fit together. Look again, or ask for a new first link.")
    return _signed_in(teacher)


def still_in(database: Database, teacher_id: str, stamp: str) -> SignedIn | None:
    """The teacher of a sign-in that still holds; None when the passphrase has changed since."""
    with database.reading() as session:
        teacher = rows.by_id(session, teacher_id)
    if teacher is None or teacher.off_at is not None or _stamp(teacher) != stamp:
        return None
    return _signed_in(teacher)


def check_tries(database: Database, tries: Tries, from_hash: str, *, at: datetime) -> None:
    """Nothing, or TooMany when too many tries have failed from there."""
    since = at - timedelta(seconds=tries.within_s)
    with database.reading() as session:
        failed = rows.failures_since(session, tries.what, from_hash, since)
    if failed >= tries.most:
        raise TooMany("Too many tries that didn't fit. Wait a little, then try again.", retry_after_s=tries.within_s)


def note_failure(database: Database, tries: Tries, from_hash: str, *, at: datetime) -> None:
    """One more try from there has failed; those over an hour old are forgotten."""
    with database.transaction() as session:
        rows.forget_failures(session, at - timedelta(hours=1))
        session.add(rows.FailedTry(id=str(uuid.uuid4()), what=tries.what, from_hash=from_hash, at=at))


def check_password_words(password: str) -> None:
    """Nothing, or a sentence about the passphrase's length."""
    if len(password) < PASSWORD_LEAST:
        short = PASSWORD_LEAST - len(password)
        raise fault("password", f"{len(password)} characters: {short} more, at least {PASSWORD_LEAST}.")
    if len(password) > PASSWORD_MOST:
        raise fault("password", f"At most {PASSWORD_MOST} characters.")


def _check_name(sign_in_name: str) -> None:
    if not 1 <= len(sign_in_name) <= NAME_MOST or not sign_in_name.isprintable():
        raise fault("sign_in_name", f"A name of 1 to {NAME_MOST} characters, please.")


@dataclass(frozen=True)
class _WayIn:
    """What lets a teacher in from now on; made before any transaction, for a hash takes its time on purpose."""

    password_hash: str | None
    first_hash: str | None
    password_made_at: datetime | None

    def give(self, teacher: rows.Teacher) -> None:
        teacher.password_hash = self.password_hash
        teacher.first_hash = self.first_hash
        teacher.password_made_at = self.password_made_at


def _new_way_in(password: str | None, at: datetime) -> tuple[str | None, _WayIn]:
    """The token of a first link, or None where there is a passphrase; and the way in that goes with it."""
    if password is None:
        token = secrets.token_urlsafe(24)
        return token, _WayIn(None, token_hash(token), None)
    check_password_words(password)
    return None, _WayIn(generate_password_hash(password), None, at)


@cache
def _nobodys_hash() -> str:
    return generate_password_hash(secrets.token_urlsafe(24))


def _fits(teacher: rows.Teacher | None, password: str) -> bool:
    """Whether the passphrase is the teacher's; nobody's takes as long to refuse as somebody's."""
    stored = teacher.password_hash if teacher else None
    return check_password_hash(stored or _nobodys_hash(), password[:PASSWORD_MOST]) and stored is not None


def _stamp(teacher: rows.Teacher) -> str:
    return token_hash(teacher.password_hash or "")[:16]


def _signed_in(teacher: rows.Teacher) -> SignedIn:
    return SignedIn(teacher_id=teacher.id, sign_in_name=teacher.sign_in_name, stamp=_stamp(teacher))
