"""`python -m app` is `ropewalk`."""

from app.commands import main

main()
