"""What anyone may open: the modules whose pages hang on the blueprint `public`."""

from app.web.public import health, home, reading_matter, sign_in
from app.web.public.blueprint import bp

__all__ = ["bp", "health", "home", "reading_matter", "sign_in"]
