#!/bin/sh
# sh deploy/postgres.sh COMMAND ...: runs the command with the address of a throw-away PostgreSQL in
# ROPEWALK_TEST_POSTGRES. The cluster lies in a folder of its own, listens on a socket there and on no port, never
# touches one that the system runs, and is gone afterwards. Status is the command's.
set -eu
cd -- "$(dirname -- "$0")/.."
. deploy/environment.sh
. deploy/machine.sh
find_postgres

folder=$(mktemp -d /tmp/ropewalk-postgres.XXXXXX) # a socket's path has to be short, so not TMPDIR
data=$folder/data
told=$folder/server.log

# initdb and the server refuse to run as root.
as_server() {
    if [ "$(id -u)" != 0 ]; then
        "$@"
    elif command -v runuser >/dev/null; then
        runuser -u "$account" -- "$@"
    else
        setpriv --reuid "$account" --regid "$(id -g "$account")" --clear-groups "$@"
    fi
}

remove_cluster() {
    trap '' INT TERM
    [ ! -e "$data/postmaster.pid" ] || (cd "$folder" && as_server "$bin/pg_ctl" -D "$data" -m immediate -w stop) >/dev/null 2>&1 || :
    rm -rf "$folder"
}

bin=$ROPEWALK_POSTGRES_BIN
account=postgres
id "$account" >/dev/null 2>&1 || account=nobody
trap remove_cluster EXIT
trap 'exit 130' INT
trap 'exit 143' TERM
[ "$(id -u)" != 0 ] || chown "$account" "$folder"

# Tests throw the cluster away, so nothing has to survive a loss of power; sorting is by character, as in SQLite.
(
    cd "$folder"
    as_server "$bin/initdb" -D "$data" -U ropewalk -A trust -E UTF8 --locale=C --no-sync
    as_server "$bin/pg_ctl" -D "$data" -l "$told" -w -t 60 start -o \
        "-c listen_addresses='' -c unix_socket_directories='$folder' -c fsync=off -c max_connections=200"
) >"$folder.told" 2>&1 || {
    cat "$folder.told" >&2
    [ ! -e "$told" ] || cat "$told" >&2
    rm -f "$folder.told"
    refuse "PostgreSQL in $bin could not be started; its own words are above."
}
rm -f "$folder.told"

ROPEWALK_TEST_POSTGRES="postgresql+psycopg://ropewalk@/postgres?host=$folder"
export ROPEWALK_TEST_POSTGRES
status=0
"$@" || status=$?
exit "$status"
