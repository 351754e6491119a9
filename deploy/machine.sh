# Read by check.sh: what the tests need of the machine, found or, for root on a Debian-like system, installed.

# find_chromium: ROPEWALK_CHROMIUM is the path of a Chromium.
find_chromium() {
    if [ -n "${ROPEWALK_CHROMIUM:-}" ]; then
        command -v "$ROPEWALK_CHROMIUM" >/dev/null || refuse "ROPEWALK_CHROMIUM is $ROPEWALK_CHROMIUM, and nothing can be started there."
        return
    fi
    if ! seek_chromium; then
        install_package chromium
        seek_chromium || refuse "No Chromium was found: install the package chromium, or set ROPEWALK_CHROMIUM to where one is."
    fi
    export ROPEWALK_CHROMIUM
}

seek_chromium() {
    for name in chromium chromium-browser google-chrome; do
        if ROPEWALK_CHROMIUM=$(command -v "$name"); then
            return
        fi
    done
    return 1
}

# find_postgres: ROPEWALK_POSTGRES_BIN is the folder of PostgreSQL's own programs.
find_postgres() {
    if ! seek_postgres; then
        install_package postgresql
        seek_postgres || refuse "No PostgreSQL was found: install the package postgresql, or set ROPEWALK_POSTGRES_BIN to the folder where initdb is."
    fi
    export ROPEWALK_POSTGRES_BIN
}

seek_postgres() {
    best=0
    [ -z "${ROPEWALK_POSTGRES_BIN:-}" ] || { has_server "$ROPEWALK_POSTGRES_BIN" && return || return 1; }
    for folder in /usr/lib/postgresql/*/bin; do
        version=$(basename -- "$(dirname -- "$folder")")
        if has_server "$folder" && [ "$version" -gt "$best" ] 2>/dev/null; then
            best=$version
            ROPEWALK_POSTGRES_BIN=$folder
        fi
    done
    [ "$best" = 0 ] || return 0
    for folder in "$(pg_config --bindir 2>/dev/null)" "$(dirname -- "$(command -v initdb)")"; do
        if has_server "$folder"; then
            ROPEWALK_POSTGRES_BIN=$folder
            return
        fi
    done
    return 1
}

has_server() {
    [ -x "$1/initdb" ] && [ -x "$1/pg_ctl" ] && [ -x "$1/postgres" ]
}

# install_package NAME: it is installed if that can be done; the caller looks again and says what is missing.
install_package() {
    if [ "$(id -u)" != 0 ] || ! command -v apt-get >/dev/null; then
        return 0
    fi
    echo "Installing the system's package $1 ..."
    told=$(mktemp)
    if ! DEBIAN_FRONTEND=noninteractive apt-get -q -y update >"$told" 2>&1 ||
        ! DEBIAN_FRONTEND=noninteractive apt-get -q -y install --no-install-recommends "$1" >>"$told" 2>&1; then
        tail -n 20 "$told" >&2
    fi
    rm -f "$told"
}
