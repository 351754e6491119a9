# Read by start.sh and check.sh, from the folder of the code: the Python environment in .venv, made when it has to be.
# A lock file that is installed has a stamp in .venv with its SHA-256, written last. While anything is being installed
# .venv/unfinished lies there, so that an interrupted install is seen and done again from nothing.

refuse() {
    printf '%s\n' "$1" >&2
    exit 2
}

# make_environment LOCK: .venv holds the packages of that lock file.
make_environment() {
    if environment_fits "$1"; then
        return
    fi
    [ -w . ] || refuse "The folder $(pwd) can't be written; give yourself the right, or put Ropewalk into another one."
    if [ -e .venv/unfinished ] || { [ -e .venv ] && ! good_python .venv/bin/python; }; then
        echo "The environment in .venv was not finished or no longer works: it is made afresh."
        rm -rf .venv
    fi
    if [ -x .venv/bin/python ]; then
        : >.venv/unfinished
    else
        new_environment
    fi
    echo "Installing the packages of $1 (once; half a minute or more) ..."
    install_packages "$1" || refuse "The packages of $1 could not be installed; see above, look at the network, and start again."
    write_launcher
    hash_of "$1" >".venv/$1.sha256"
    rm .venv/unfinished
}

environment_fits() {
    [ ! -e .venv/unfinished ] && [ -f ".venv/$1.sha256" ] && [ "$(cat ".venv/$1.sha256")" = "$(hash_of "$1")" ] &&
        good_python .venv/bin/python
}

new_environment() {
    find_python
    mkdir -p .venv && : >.venv/unfinished
    if command -v uv >/dev/null 2>&1; then
        echo "Making the environment in .venv ..."
        uv venv --quiet --allow-existing --python "$(command -v "$python")" .venv || refuse "uv could not make the environment in .venv; see above."
        return
    fi
    "$python" -c 'import ensurepip, venv' 2>/dev/null ||
        refuse "This Python can't make environments; install the package python3-venv (apt-get install python3-venv), then start again."
    echo "Making the environment in .venv (some 10 s) ..."
    "$python" -m venv .venv || refuse "The environment in .venv could not be made; see above."
}

install_packages() {
    if command -v uv >/dev/null 2>&1; then
        uv pip install --quiet --python .venv/bin/python --require-hashes -r "$1"
        return
    fi
    .venv/bin/python -c 'import pip' 2>/dev/null || .venv/bin/python -m ensurepip >/dev/null || return 1
    .venv/bin/python -m pip install -qq --disable-pip-version-check --require-hashes -r "$1"
}

# The command ropewalk, which finds its own folder, so that a link to it works from anywhere.
write_launcher() {
    cat >.venv/bin/ropewalk <<'END'
#!/bin/sh
venv=$(dirname -- "$(dirname -- "$(readlink -f -- "$0")")")
PYTHONPATH=$(dirname -- "$venv") OPENBLAS_NUM_THREADS=1 exec "$venv/bin/python" -P -m app "$@"
END
    chmod 755 .venv/bin/ropewalk
}

find_python() {
    for python in python3 python3.13 python3.12 python3.11 python3.14 python; do
        if good_python "$python"; then
            return
        fi
    done
    refuse "Ropewalk needs Python 3.11 or newer; none was found on this computer."
}

good_python() {
    "$1" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1
}

hash_of() {
    if command -v sha256sum >/dev/null 2>&1; then
        sha256sum <"$1"
    else
        shasum -a 256 <"$1"
    fi | cut -c 1-64
}
