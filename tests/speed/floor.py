"""The product with two bare routes beside it, in one server: what a request, and what a commit, costs by itself."""

import os
import uuid

from flask import Flask
from sqlalchemy import text
from werkzeug.middleware.dispatcher import DispatcherMiddleware

from app import create_app
from app.settings import from_environment
from app.store.database import Database

TABLE = "CREATE TABLE IF NOT EXISTS floor (id VARCHAR(36) PRIMARY KEY, typed VARCHAR(20), pointer_mm DOUBLE PRECISION)"
INSERT = text("INSERT INTO floor (id, typed, pointer_mm) VALUES (:id, '218', 218.0)")


def make_table(database: Database) -> None:
    """There is a table to write into that nothing else knows."""
    with database.connected() as connection:
        connection.execute(text(TABLE))


def _floor(database: Database) -> Flask:
    bare = Flask("floor")

    @bare.post("/constant")
    def constant() -> str:
        return "ok"

    @bare.post("/insert")
    def insert() -> str:
        with database.connected() as connection:
            connection.execute(INSERT, {"id": str(uuid.uuid4())})
        return "ok"

    return bare


def _product() -> Flask:
    product = create_app(from_environment(os.environ))
    floor = _floor(product.extensions["ropewalk"].database)
    product.wsgi_app = DispatcherMiddleware(product.wsgi_app, {"/floor": floor})  # type: ignore[method-assign]
    return product


if __name__ != "__main__" and os.environ.get("ROPEWALK_DATA"):
    app = _product()
