#!/bin/sh
# Ropewalk from nothing to served: environment, packages, database, demonstration lessons, server.
# Called again it keeps everything and serves in seconds. Options are those of `ropewalk start`.
set -eu
LC_ALL=C.UTF-8
export LC_ALL
cd -- "$(dirname -- "$0")/.."
. deploy/environment.sh

make_environment requirements.lock
PYTHONPATH=$(pwd)
OPENBLAS_NUM_THREADS=1 # one sum is small; threads of its own only cost memory
export PYTHONPATH OPENBLAS_NUM_THREADS
exec .venv/bin/python -P -m app start "$@"
