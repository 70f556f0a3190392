#!/usr/bin/env bats
# The shipped script for GNU parallel on two hosts: two network namespaces joined by
# a cable, an sshd in each, which sees nothing of the folder that the notes are in.
# The addresses are for documentation (RFC 5737) and lead nowhere else.
load ../cli/kit

CLUSTER=$ROOT/examples/cluster

setup_file() {
    [ "$(id -u)" = 0 ] || skip 'network namespaces need root'
    HOSTS=$(mktemp -d /tmp/9m-hosts-XXXXXX)
    A=9m-a-$$ B=9m-b-$$
    export HOSTS A B
    : >"$HOSTS/started"
    ip netns add "$A"
    ip netns add "$B"
    ip link add "a$$" netns "$A" type veth peer name "b$$" netns "$B"
    ip -n "$A" addr add 192.0.2.1/24 dev "a$$"
    ip -n "$B" addr add 192.0.2.2/24 dev "b$$"
    ip -n "$A" link set "a$$" up
    ip -n "$B" link set "b$$" up
    ip -n "$A" link set lo up
    ip -n "$B" link set lo up
    ssh-keygen -q -t ed25519 -N '' -f "$HOSTS/key"
    ssh-keygen -q -t ed25519 -N '' -f "$HOSTS/host"
    host "$A" 192.0.2.1
    host "$B" 192.0.2.2
    client >"$HOSTS/client"
    export PARALLEL_SSH="ssh -F $HOSTS/client" PARALLEL_HOME=$HOSTS/parallel
    mkdir "$PARALLEL_HOME"
}

# host NAMESPACE ADDRESS: an sshd there, which does not see the notes of the tests.
host() {
    mkdir "$HOSTS/$2"
    cat >"$HOSTS/$2/sshd" <<END
ListenAddress $2:22
HostKey $HOSTS/host
AuthorizedKeysFile $HOSTS/key.pub
StrictModes no
UsePAM no
PermitRootLogin prohibit-password
PidFile none
SetEnv PATH=$PATH
END
    ip netns exec "$1" sh -c "mount -t tmpfs none '$BATS_RUN_TMPDIR' && mkdir -p /run/sshd &&
        exec /usr/sbin/sshd -D -e -f '$HOSTS/$2/sshd'" >"$HOSTS/$2/log" 2>&1 3>&- &
    echo $! >>"$HOSTS/started"
    timeout 20 sh -c "until ip netns exec $1 ssh-keyscan -t ed25519 $2 2>/dev/null | grep -q ed25519; do sleep 0.1; done"
}

client() {
    cat <<END
IdentityFile $HOSTS/key
IdentitiesOnly yes
User root
UserKnownHostsFile $HOSTS/known
StrictHostKeyChecking accept-new
END
}

teardown_file() {
    [ -n "${HOSTS-}" ] || return 0
    while read -r pid; do
        kill "$pid" 2>/dev/null || true
    done <"$HOSTS/started"
    ip netns del "$A" || true
    ip netns del "$B" || true
    rm -rf "$HOSTS"
}

on_both() { # TREE WORK
    ip netns exec "$A" "$CLUSTER/parallel.sh" "$1" 1/192.0.2.1,1/192.0.2.2 "$2"
}

notes_of_clubs() {
    "${NINEMETRE%/*}/tests/bench/lifelike" --seed 7 tree 20000 clubs 2>/dev/null
}

@test "folders counted on two hosts give what one run gives" {
    notes_of_clubs
    ip netns exec "$A" ssh -F "$HOSTS/client" 192.0.2.2 "ls '$PWD/clubs'" 2>&1 | grep 'No such file'
    on_both clubs work 3>&-
    9m tally --partial clubs | cmp - work/counts.json
    for form in text csv json; do
        9m tally --as $form --by all --team all clubs >whole
        9m tally --merge --as $form --by all --team all work/counts.json | cmp - whole
    done
    # Both have worked, and nothing stays behind.
    same "$(awk -F '\t' 'NR > 1 { print $2 }' work/jobs | sort -u | wc -l)" 2
    same "$(find ~/.parallel -name '*.9m' 2>/dev/null)" ''
}

@test "a folder with errors leaves no result and is named" {
    notes_of_clubs
    bad=$(find clubs -name '*match.9m' | sort | sed -n 20p)
    echo '7 nett' >>"$bad"
    folder=$(cut -d / -f 2 <<<"$bad")
    run on_both clubs work 3>&-
    [ "$status" = 1 ]
    holds "$output" "${bad#clubs/}"
    holds "$output" '"nett" is not an outcome'
    holds "$output" 'nothing is added up; not counted:'
    grep -E "folder [0-9]+ on 192\.0\.2\.[12]: .*$folder" <<<"$output"
    [ ! -e work/counts.json ]
}

@test "a host that is lost leaves no result and is named" {
    notes_of_clubs
    run ip netns exec "$A" "$CLUSTER/parallel.sh" clubs 1/192.0.2.1,1/192.0.2.3 work 3>&-
    [ "$status" != 0 ]
    holds "$output" 'nothing is added up; not counted:'
    holds "$output" 'on 192.0.2.3: 9m tally --partial'
    [ ! -e work/counts.json ]
}

@test "notes outside of the folders would be left out: refused" {
    notes_of_clubs
    good_notes >clubs/astray.9m
    run -1 on_both clubs work
    holds "$output" 'clubs/astray.9m lies in no folder of'
    mkdir empty
    run -1 on_both empty new
    holds "$output" 'no folder in'
    run "$CLUSTER/parallel.sh" empty here new
    [ "$status" != 0 ]
    run -2 "$CLUSTER/parallel.sh" clubs
    holds "$output" 'parallel.sh TREE HOSTS WORK'
}
