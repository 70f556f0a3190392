#!/usr/bin/env bats
# The shipped jobs on a Slurm of the test's own: two nodes of one processor each,
# on ports of this machine that nobody else can reach.
load ../cli/kit

CLUSTER=$ROOT/examples/cluster

setup_file() {
    SLURM=$(mktemp -d /tmp/9m-slurm-XXXXXX)
    SLURM_CONF=$SLURM/slurm.conf
    export SLURM SLURM_CONF
    # munged wants its socket where everybody may come.
    chmod 755 "$SLURM"
    mkdir "$SLURM/state" "$SLURM/n1" "$SLURM/n2"
    : >"$SLURM/started"
    configuration >"$SLURM_CONF"
    dd if=/dev/urandom of="$SLURM/key" bs=1024 count=1 status=none
    chmod 400 "$SLURM/key"
    munged --foreground --key-file "$SLURM/key" --socket "$SLURM/munge" --pid-file "$SLURM/munged.pid" \
        --log-file "$SLURM/munged.log" --seed-file "$SLURM/seed" >&2 3>&- &
    echo $! >>"$SLURM/started"
    timeout 20 sh -c 'until [ -S "$SLURM/munge" ]; do sleep 0.1; done'
    slurmctld -D -f "$SLURM_CONF" >&2 3>&- &
    echo $! >>"$SLURM/started"
    for node in n1 n2; do
        slurmd -D -N $node -f "$SLURM_CONF" >&2 3>&- &
        echo $! >>"$SLURM/started"
    done
    timeout 60 sh -c 'until [ "$(sinfo -h -t idle -o %D)" = 2 ]; do sleep 0.2; done' || {
        tail -n 30 "$SLURM"/*.log >&2
        return 1
    }
}

# Three ports that nobody listens on.
free_ports() {
    python3 -c '
import socket
held = [socket.socket() for _ in range(3)]
for s in held: s.bind(("127.0.0.1", 0))
print(*(s.getsockname()[1] for s in held))'
}

configuration() {
    local me host ports
    me=$(id -un) host=$(hostname -s)
    read -ra ports < <(free_ports)
    cat <<END
ClusterName=test
SlurmctldHost=$host(127.0.0.1)
SlurmctldPort=${ports[0]}
CommunicationParameters=NoCtldInAddrAny,NoInAddrAny
SlurmUser=$me
SlurmdUser=$me
AuthType=auth/munge
CredType=cred/munge
# A job that is run again waits until its old credential has expired.
AuthInfo=socket=$SLURM/munge,cred_expire=5
StateSaveLocation=$SLURM/state
SlurmdSpoolDir=$SLURM/%n
SlurmctldPidFile=$SLURM/slurmctld.pid
SlurmdPidFile=$SLURM/%n.pid
SlurmctldLogFile=$SLURM/slurmctld.log
SlurmdLogFile=$SLURM/%n.log
ProctrackType=proctrack/pgid
TaskPlugin=task/none
SwitchType=switch/none
MpiDefault=none
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU
SchedulerType=sched/builtin
# Nobody else waits: it may look at its queue every second.
SchedulerParameters=sched_interval=1,builtin_interval=1,batch_sched_delay=0
ReturnToService=2
NodeName=n1 NodeHostname=$host NodeAddr=127.0.0.1 Port=${ports[1]} CPUs=1
NodeName=n2 NodeHostname=$host NodeAddr=127.0.0.1 Port=${ports[2]} CPUs=1
PartitionName=all Nodes=ALL Default=YES MaxTime=10
END
}

teardown_file() {
    # The nodes first: they tell the controller that they go.
    tac "$SLURM/started" | while read -r pid; do
        kill "$pid" 2>/dev/null || true
        timeout 10 tail --pid="$pid" -f /dev/null || kill -9 "$pid"
    done
    rm -rf "$SLURM"
}

# Seasons of several clubs, some 120 files.
notes_of_clubs() {
    "${NINEMETRE%/*}/tests/bench/lifelike" --seed 7 tree 20000 clubs 2>/dev/null
}

@test "an array of jobs and a merging one give what one run gives" {
    notes_of_clubs
    timeout 120 "$CLUSTER/slurm.sh" clubs 5 work
    same "$(ls work/parts | wc -l)" 5
    9m tally --partial clubs | cmp - work/counts.json
    for form in text csv json; do
        9m tally --as $form --by all --team all clubs >whole
        9m tally --merge --as $form --by all --team all work/counts.json | cmp - whole
    done
    [ "$(jq '[.serves[][3]] | add' work/counts.json)" -gt 19000 ]
}

@test "a share with errors leaves no result and is named" {
    notes_of_clubs
    bad=$(find clubs -name '*match.9m' | sort | sed -n 20p)
    echo '7 nett' >>"$bad"
    run -1 timeout 120 "$CLUSTER/slurm.sh" clubs 4 work
    holds "$output" "${bad#clubs/}"
    holds "$output" '"nett" is not an outcome'
    holds "$output" 'nothing is added up: 1 of the shares are missing'
    share=$(grep -lF "${bad#clubs/}" work/shards/*)
    holds "$output" "share ${share##*/} was not counted"
    same "$(ls work/parts | wc -l)" 3
    [ ! -e work/counts.json ]
}

# Stands before 9m on the PATH: the second share is counted, and then its job is
# put back into the queue, as when its node is lost.
lose_a_node() {
    mkdir bin
    cat >bin/9m <<END
#!/bin/bash
"$NINEMETRE" "\$@" || exit
[ "\${SLURM_ARRAY_TASK_ID-}" = 2 ] || exit 0
echo "run \${SLURM_RESTART_COUNT-0}" >>'$PWD/runs'
[ -z "\${SLURM_RESTART_COUNT-}" ] || exit 0
scontrol requeue "\$SLURM_JOB_ID"
sleep 60
END
    chmod +x bin/9m
}

@test "a share that is run again is counted once" {
    notes_of_clubs
    lose_a_node
    PATH=$PWD/bin:$PATH timeout 180 "$CLUSTER/slurm.sh" clubs 3 work
    same "$(cat runs)" $'run 0\nrun 1'
    "$NINEMETRE" tally --partial clubs | cmp - work/counts.json
}

@test "a match that stands twice in the tree is refused, by name" {
    notes_of_clubs
    # Behind the others, beside each other: so in two shares.
    first=$(find clubs -name '*match.9m' | sort | head -n 1)
    mkdir clubs/z
    sed '/^squad/d' "$first" | tee clubs/z/1.9m clubs/z/2.9m | 9m check -
    run -3 timeout 120 "$CLUSTER/slurm.sh" clubs 4 work
    holds "$output" ' both count 1.9m'
    [ ! -e work/counts.json ]
}

@test "results never mix with older ones, and no notes are no result" {
    mkdir work empty
    run "$CLUSTER/slurm.sh" empty 2 work
    [ "$status" != 0 ]
    run -1 "$CLUSTER/slurm.sh" empty 2 new
    holds "$output" 'no notes in'
    run -2 "$CLUSTER/slurm.sh" empty
    holds "$output" 'slurm.sh TREE SHARDS WORK'
}
