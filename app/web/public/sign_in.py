"""The teacher's door: first sign-in, sign in, sign out, own passphrase."""

from typing import Any

from flask import flash, make_response, redirect, render_template, request, session, url_for
from wtforms import Form

from app.domain.errors import InvalidEntry, SignInNeeded, TooMany
from app.services import teachers
from app.services.teachers import FIRST_NAME
from app.web.access import for_anyone, for_teacher
from app.web.current import database, from_hash, now, sign_in_here, signed_in, who
from app.web.public.blueprint import bp
from app.web.public.forms import FirstForm, PasswordForm, SignInForm


@bp.get("/sign-in")
@for_anyone
def sign_in() -> Any:
    """The page that asks for name and passphrase; who is in already goes on."""
    onwards = _inside(request.args.get("next", ""))
    if who().teacher:
        return redirect(onwards, 303)
    return _sign_in_page(SignInForm(data={"next": onwards, "sign_in_name": FIRST_NAME}))


@bp.post("/sign-in")
@for_anyone
def sign_in_with() -> Any:
    """This browser is the teacher's; or the page again with a sentence."""
    form = SignInForm(request.form)
    if not form.validate():
        return _sign_in_page(form), 422
    name = (form.sign_in_name.data or "").strip()
    try:
        teacher = teachers.sign_in(database(), name, form.password.data or "", from_hash=from_hash(name), at=now())
    except SignInNeeded as refusal:
        return _sign_in_page(form, refusal.sentence), 422
    except TooMany as refusal:
        answer = make_response(_sign_in_page(form, refusal.sentence), 429)
        answer.headers["Retry-After"] = str(refusal.retry_after_s)
        return answer
    sign_in_here(teacher)
    return redirect(_inside(form.next.data or ""), 303)


def _sign_in_page(form: Form, sentence: str = "") -> str:
    return render_template("public/sign_in.html", form=form, sentence=sentence)


def _inside(address: str) -> str:
    """An address of our own to go on to; anything else becomes the teacher's lessons."""
    fits = address.startswith("/") and not address.startswith("//") and "\\" not in address and address.isprintable()
    return address if fits else url_for("lessons.open_lessons")


@bp.get("/first/<token>")
@for_anyone
def first(token: str) -> str:
    """The page of a first sign-in link, which asks for a passphrase."""
    return _first_page(token, FirstForm())


@bp.post("/first/<token>")
@for_anyone
def set_first(token: str) -> Any:
    """The passphrase is set, the link opens no more, and this browser is the teacher's."""
    form = FirstForm(request.form)
    if not form.validate():
        return _first_page(token, form), 422
    sign_in_here(teachers.set_first_password(database(), token, form.password.data or "", at=now()))
    return redirect(url_for("lessons.open_lessons"), 303)


def _first_page(token: str, form: Form) -> str:
    name = teachers.whose_first_link(database(), token)
    return render_template("public/first.html", form=form, name=name)


@bp.get("/password")
@for_teacher
def password() -> str:
    """The page to change one's own passphrase."""
    return _password_page(PasswordForm())


@bp.post("/password")
@for_teacher
def change_password() -> Any:
    """The passphrase is the new one; other browsers of this teacher are signed out."""
    form = PasswordForm(request.form)
    if not form.validate():
        return _password_page(form), 422
    old, new = form.old_password.data or "", form.password.data or ""
    tries = from_hash(signed_in().sign_in_name)
    teachers.check_tries(database(), teachers.PASSWORDS, tries, at=now())
    try:
        teacher = teachers.change_password(database(), signed_in().teacher_id, old=old, new=new, at=now())
    except InvalidEntry as refusal:
        teachers.note_failure(database(), teachers.PASSWORDS, tries, at=now())
        form.old_password.errors = [refusal.sentence]
        return _password_page(form), 422
    sign_in_here(teacher)
    flash("Your passphrase is the new one. Other browsers that you signed in with are out.")
    return redirect(url_for("lessons.open_lessons"), 303)


def _password_page(form: Form) -> str:
    return render_template("public/password.html", form=form, name=signed_in().sign_in_name)


@bp.post("/sign-out")
@for_anyone
def sign_out() -> Any:
    """This browser is nobody's; a bench that it holds stays with it."""
    session.pop("teacher", None)
    return redirect(url_for("public.home"), 303)
