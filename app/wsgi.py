"""The object that gunicorn loads."""

import os

from app import create_app
from app.settings import from_environment

app = create_app(from_environment(os.environ))
