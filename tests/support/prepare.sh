# Shared by tests/run and examples/run: what both need before they can start. Sourced, not run.
# Works from any folder, asks nothing, and reads nothing from standard input.

root="$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)"
build="$root/build/release"

packages=(
    g++ cmake ninja-build pkg-config git
    tao-pegtl-dev libfmt-dev libboost1.81-dev nlohmann-json3-dev libcli11-dev libutf8proc-dev
    nettle-dev libgit2-dev libicu-dev catch2 units glpk-utils python3
)
# Needed by the tests alone, and often there from elsewhere than Debian, which then forbids Debian's.
command -v node >/dev/null || packages+=(nodejs)
command -v npm >/dev/null || packages+=(npm)

# A browser for the tests of pages, with a typeface: large, so examples/run does without it.
test_packages=(chromium fonts-dejavu-core)

missing_packages() {
    local package
    for package in "${packages[@]}"; do
        if ! dpkg -s "$package" 2>/dev/null | grep -q '^Status: install ok installed$'; then
            echo "$package"
        fi
    done
}

# Installs only what is missing. libboost1.81-dev and libboost1.74-dev exclude each other: apt takes
# the older one away, with what needs it, which -y allows.
install_missing() {
    command -v dpkg >/dev/null && command -v apt-get >/dev/null || {
        echo "This is not a Debian system: please install the likes of: ${packages[*]}" >&2
        return 0
    }
    local missing as_root=()
    mapfile -t missing < <(missing_packages)
    [[ ${#missing[@]} -gt 0 ]] || return 0
    if [[ $EUID -ne 0 ]]; then
        if ! command -v sudo >/dev/null; then
            echo "These packages are missing: ${missing[*]}" >&2
            echo "Install them as root:  apt-get install ${missing[*]}" >&2
            return 1
        fi
        as_root=(sudo)
    fi
    echo "Installing: ${missing[*]}"
    local apt=("${as_root[@]}" env DEBIAN_FRONTEND=noninteractive
               apt-get -qq -y -o DPkg::Lock::Timeout=120)
    "${apt[@]}" update </dev/null
    "${apt[@]}" install --no-install-recommends "${missing[@]}" </dev/null >/dev/null
}

configure() {
    local options=(-DCMAKE_BUILD_TYPE=Release)
    # What a build folder has chosen stays: this is for a new one.
    if [[ ! -e "$build/CMakeCache.txt" ]]; then
        # Everything is compiled once here: several sources at a time cost half as much.
        options+=(-DLEVIGATE_UNITY=ON)
        # The generator of a build folder can't change.
        if command -v ninja >/dev/null; then options+=(-G Ninja); fi
        # ccache keeps nothing that was compiled with precompiled headers.
        if command -v ccache >/dev/null; then options+=(-DLEVIGATE_PCH=OFF); fi
    fi
    if command -v ccache >/dev/null; then
        options+=(-DCMAKE_CXX_COMPILER_LAUNCHER=ccache)
    fi
    cmake -S "$root" -B "$build" "${options[@]}" </dev/null >"$build.log" || {
        cat "$build.log" >&2
        return 1
    }
}

# install_modules NAME: what the tests in tests/NAME take from npm, as the lock file there fixes it.
# Beside the build, so that nothing foreign stands among the sources.
install_modules() {
    local from="$root/tests/$1" to="$build/$1"
    mkdir -p "$to"
    if cmp -s "$from/package-lock.json" "$to/package-lock.json" && [[ -d "$to/node_modules" ]]; then
        return 0
    fi
    cp "$from"/package*.json "$to/"
    npm ci --prefix "$to" --ignore-scripts --no-audit --no-fund </dev/null >"$to/npm.log" 2>&1 || {
        echo "npm can't install what tests/$1/package.json names, so tests will fail that need it:" \
             "is there a network?" >&2
        tail -n 5 "$to/npm.log" >&2
        rm -f "$to/package-lock.json"
    }
}

# prepare TARGET: installs, configures, and builds the target.
prepare() {
    install_missing
    mkdir -p "$build"
    configure
    cmake --build "$build" --target "$1" --parallel "$(nproc)" </dev/null
}
