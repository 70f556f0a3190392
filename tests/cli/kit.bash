# What the files of this folder share. Each test has a directory of its own.
bats_require_minimum_version 1.5.0
: "${NINEMETRE:=$(cd "$BATS_TEST_DIRNAME/../../${BUILD:-build}" && pwd)/9m}"
PATH=$(dirname "$NINEMETRE"):$PATH
ROOT=$(cd "$BATS_TEST_DIRNAME/../.." && pwd)
export LC_ALL=C.UTF-8
unset NO_COLOR CLICOLOR_FORCE

setup() {
    mkdir "$BATS_TEST_TMPDIR/work"
    cd "$BATS_TEST_TMPDIR/work" || return 1
}

teardown() {
    if [ -n "${OPEN-}" ]; then rm -rf "$OPEN"; fi
}

# Notes without a slip, and the same with lines behind them.
head_of_match() {
    printf '%s\n' 'notation 1' 'match 2026-10-03' 'team H "Herons" women' \
        'team G "Foxes" women' 'set 1 H'
}

good_notes() {
    head_of_match
    printf '%s\n' '7 ace' '7 net' 'G3 net'
}

notes() { # LINE...
    head_of_match
    printf '%s\n' "$@"
}

# Fails with what there is when it is not what is expected.
same() { # GOT EXPECTED
    [ "$1" = "$2" ] || {
        diff <(printf '%s\n' "$2") <(printf '%s\n' "$1")
        return 1
    }
}

# Whether a text holds another.
holds() { # TEXT PART
    case $1 in
    *"$2"*) ;;
    *)
        printf 'no "%s" in:\n%s\n' "$2" "$1"
        return 1
        ;;
    esac
}

lacks() { # TEXT PART
    case $1 in
    *"$2"*)
        printf '"%s" in:\n%s\n' "$2" "$1"
        return 1
        ;;
    esac
}

# Goes to a directory that everybody may enter and write, with the program in
# it: for runs as somebody who is not root, since root may do everything.
open_ground() {
    OPEN=$(mktemp -d /tmp/9m-test-XXXXXX)
    chmod 755 "$OPEN"
    cp "$NINEMETRE" "$OPEN/9m"
    mkdir -m 777 "$OPEN/work"
    cd "$OPEN/work" || return 1
}

nobody_9m() {
    if [ "$(id -u)" = 0 ]; then
        setpriv --reuid 65534 --regid 65534 --clear-groups ../9m "$@"
    else
        ../9m "$@"
    fi
}

# With address checks memory is mostly that of the checks.
needs_own_memory() {
    if grep -qa __asan_init "$NINEMETRE"; then skip 'built with address checks'; fi
}
