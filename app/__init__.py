"""Ropewalk, assembled: only `create_app` is here, and nobody imports from here but the server and the tests."""

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any

from flask import Flask, Response, request
from flask.sessions import SecureCookieSessionInterface
from flask_wtf.csrf import CSRFProtect
from werkzeug.middleware.proxy_fix import ProxyFix

from app.domain.errors import NotFound
from app.domain.limits import BODY_BYTES, TABLET_DAYS
from app.services import changes
from app.settings import Settings
from app.store.database import Database, sqlite_url
from app.web import assets
from app.web.api import routes_bench, routes_class, routes_entries, routes_join, routes_lesson
from app.web.bench import routes as bench_pages
from app.web.current import Installation, utc_now
from app.web.errors import attach_errors, is_api
from app.web.front import routes as front_pages
from app.web.lead import routes_cutting, routes_graph, routes_lessons, routes_print, routes_running
from app.web.live import Watch
from app.web.log import attach_log
from app.web.public import routes as public_pages
from app.web.shelf import routes as shelf_pages
from app.web.template_tools import attach_templates

BLUEPRINTS = (
    public_pages.bp,
    bench_pages.bp,
    routes_lessons.bp,
    routes_cutting.bp,
    routes_running.bp,
    routes_graph.bp,
    routes_print.bp,
    front_pages.bp,
    shelf_pages.bp,
    routes_join.bp,
    routes_bench.bp,
    routes_entries.bp,
    routes_lesson.bp,
    routes_class.bp,
    assets.bp,
)

PAGE_RULES = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; "
    "font-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
)


class _Cookies(SecureCookieSessionInterface):
    """The cookie is marked secure where the request came over https, and only there: plain http must keep it."""

    def get_cookie_secure(self, app: Flask) -> bool:  # noqa: ARG002 - the signature is Flask's
        return request.is_secure


def create_app(
    settings: Settings, *, database: Database | None = None, clock: Callable[[], datetime] = utc_now
) -> Flask:
    """The whole product, ready to serve; nothing is opened and no thread started until the first request."""
    app = Flask(__name__, static_folder=None)
    app.session_interface = _Cookies()
    app.config.update(_configuration(settings))
    store = database or Database(settings.database_url or sqlite_url(settings.database_path))
    app.extensions["ropewalk"] = Installation(
        database=store,
        secret_key=settings.secret_key,
        hold_s=settings.hold_s,
        data_folder=settings.data_folder,
        port=settings.port,
        watch=Watch(
            lambda lesson_ids: changes.heads(store, lesson_ids),
            places=settings.places,
            alive=lambda: app.extensions["ropewalk_alive"](),  # noqa: PLW0108 - it is replaced after the fork
        ),
        clock=clock,
    )
    app.extensions["ropewalk_alive"] = lambda: True  # the server puts its worker's own answer in this place
    attach_log(app, settings.log_level)
    attach_errors(app)
    attach_templates(app)
    _attach_csrf(app)
    app.before_request(_refuse_nul)
    app.after_request(_guard)
    for blueprint in BLUEPRINTS:
        app.register_blueprint(blueprint)
    if settings.proxies:
        hops = settings.proxies
        app.wsgi_app = ProxyFix(app.wsgi_app, x_for=hops, x_proto=hops, x_host=hops)  # type: ignore[method-assign]
    assets.warm()
    return app


def _configuration(settings: Settings) -> dict[str, Any]:
    return {
        "SECRET_KEY": settings.secret_key,
        "SESSION_COOKIE_NAME": "ropewalk",
        "SESSION_COOKIE_HTTPONLY": True,
        "SESSION_COOKIE_SAMESITE": "Lax",
        "PERMANENT_SESSION_LIFETIME": timedelta(days=TABLET_DAYS),
        "MAX_CONTENT_LENGTH": BODY_BYTES,
        "MAX_FORM_MEMORY_SIZE": BODY_BYTES,
        "TRUSTED_HOSTS": list(settings.hosts) or None,
        "WTF_CSRF_TIME_LIMIT": None,
        "WTF_CSRF_CHECK_DEFAULT": False,
    }


def _attach_csrf(app: Flask) -> None:
    """Every write by cookie needs the page's token; one by Authorization header, or by nobody yet, does not."""
    csrf = CSRFProtect(app)

    @app.before_request
    def check_csrf() -> None:
        if request.method in ("GET", "HEAD", "OPTIONS"):
            return
        if is_api() and ("Authorization" in request.headers or "ropewalk" not in request.cookies):
            return
        csrf.protect()


def _refuse_nul() -> None:
    """No address has the sign that PostgreSQL can't take; nothing else has to look for it there."""
    if "\x00" in request.path or b"%00" in request.query_string:
        raise NotFound("There is nothing at this address.")


def _guard(answer: Response) -> Response:
    answer.headers.setdefault("Content-Security-Policy", PAGE_RULES)
    answer.headers.setdefault("X-Content-Type-Options", "nosniff")
    answer.headers.setdefault("Referrer-Policy", "same-origin")
    answer.headers.setdefault("Cache-Control", "no-store")
    return answer
