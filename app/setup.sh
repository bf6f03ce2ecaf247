# shellcheck shell=bash
# Read by app/run, tests/run, tests/bare and .ci/run: installs what app/packages lists, builds, times steps.

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd -P)
name=$(readlink -f "$0")
name=${name#"$root/"}
export CCACHE_BASEDIR=$root CCACHE_NOHASHDIR=1

die() {
    printf '%s: %s\n' "$name" "$*" >&2
    exit 1
}

# packages SECTION...: the names that app/packages lists there.
packages() {
    local wanted=" $* " line section=
    while IFS= read -r line; do
        line=${line%%#*}
        line=${line//[[:space:]]/}
        case $line in
            '') ;;
            \[*\]) section=${line:1:-1} ;;
            *) if [[ $wanted == *" $section "* ]]; then printf '%s\n' "$line"; fi ;;
        esac
    done <"$root/app/packages"
}

# install SECTION...: installs what is missing of them, after saying what.
install() {
    { command -v apt-get && command -v dpkg-query; } >/dev/null ||
        die "this system has no apt-get; install what app/packages lists (Debian 12 names) and build with cmake --preset release"
    local wanted have missing=() as_root=() package
    mapfile -t wanted < <(packages "$@")
    have=$(dpkg-query -W -f '${db:Status-Status} ${Package}\n' "${wanted[@]}" 2>/dev/null || true)
    for package in "${wanted[@]}"; do
        grep -qx "installed $package" <<<"$have" || missing+=("$package")
    done
    if ((${#missing[@]} == 0)); then return; fi

    printf '%s: installing %d packages: %s\n' "$name" "${#missing[@]}" "${missing[*]}"
    if [[ $(id -u) != 0 ]]; then
        command -v sudo >/dev/null || die "installing packages needs root or sudo; install those, or run as root"
        as_root=(sudo)
    fi
    local apt=("${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q -o DPkg::Lock::Timeout=600)
    "${apt[@]}" update || die "apt-get update failed; the lines above say why"
    "${apt[@]}" install -y --no-install-recommends "${missing[@]}" ||
        die "installing packages failed; the lines above say why"
}

# step NAME COMMAND...: runs the command, keeps its minutes for step_table; a failure ends the script with one line.
steps=()
step() {
    local title=$1 begin=$SECONDS
    shift
    printf '\n== %s\n' "$title"
    if ! "$@"; then
        steps+=("$((SECONDS - begin)) $title (failed)")
        step_table
        die "$title failed"
    fi
    steps+=("$((SECONDS - begin)) $title")
}

step_table() {
    local row total=0
    printf '\nminutes\n'
    for row in "${steps[@]}"; do
        total=$((total + ${row%% *}))
        printf '%7s  %s\n' "$(minutes "${row%% *}")" "${row#* }"
    done
    printf '%7s  all\n' "$(minutes "$total")"
}

# minutes SECONDS: with one decimal, rounded.
minutes() {
    local tenths=$((($1 + 3) / 6))
    printf '%d.%d' $((tenths / 10)) $((tenths % 10))
}

# compile PRESET [TARGET...]: configures, which is quick when nothing changed, and builds.
compile() {
    local preset=$1
    shift
    cmake --preset "$preset" --log-level=WARNING >/dev/null || return 1
    cmake --build "build/$preset" ${1:+--target "$@"}
}
