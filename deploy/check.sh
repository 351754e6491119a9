#!/bin/sh
# Every check there is: form, lint, types, and all tests, on SQLite, on a PostgreSQL of its own and in a real Chromium.
# Ends with pytest's own closing line and status. What can't be had is a sentence and a failure. Options go to pytest.
set -eu
LC_ALL=C.UTF-8
export LC_ALL
cd -- "$(dirname -- "$0")/.."
. deploy/environment.sh
. deploy/machine.sh

make_environment requirements.lock
make_environment requirements-test.lock
find_chromium
find_postgres

lint=0
.venv/bin/python -m ruff format --check . || lint=1
.venv/bin/python -m ruff check . || lint=1
.venv/bin/python -m mypy || lint=1
[ "$lint" = 0 ] || echo "The linters found something (above): this check fails whatever the tests say."

status=0
sh deploy/postgres.sh .venv/bin/python -m pytest -n 3 --dist loadfile "$@" || status=$?
[ "$status" != 0 ] || status=$lint
exit "$status"
