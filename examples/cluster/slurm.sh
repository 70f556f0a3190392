#!/bin/bash
# Counts a tree of notes with Slurm: an array of jobs that count a share of the
# files each, and a last job that adds their counts up.
#
#     slurm.sh TREE SHARDS WORK
#
# Every node sees TREE, has 9m on its PATH and may write to WORK, a folder that
# does not exist yet. When all is done the counts are in WORK/counts.json:
# `9m tally --merge --by all WORK/counts.json` makes tables of them. If a share could
# not be counted there is no such file; what is wrong is told, and the exit status
# is not 0. SBATCH_PARTITION, SBATCH_ACCOUNT and the like are sbatch's own.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
[ $# = 3 ] || { sed -n '2,/^set/s/^# \{0,1\}//p' "$0" >&2; exit 2; }
tree=$(cd "$1" && pwd) shards=$2

mkdir "$3" # and no further if it is there: its counts would mix with ours
work=$(cd "$3" && pwd)
mkdir "$work/shards" "$work/parts" "$work/log"

# The notes as 9m itself finds them, dealt out so that each share has as many.
cd "$tree"
find . -name '.?*' -prune -o -name '*.9m' -type f -printf '%P\0' | sort -z |
    split -t '\0' -n "r/$shards" -a 4 --numeric-suffixes=1 - "$work/shards/"
find "$work/shards" -type f -empty -delete
shards=$(find "$work/shards" -type f | wc -l)
[ "$shards" != 0 ] || { echo "$0: no notes in $tree" >&2; exit 1; }

array=$(sbatch --parsable --array="1-$shards" --chdir="$tree" --output="$work/log/%4a" \
    "$here/shard.sbatch" "$work")
# afterany, not afterok: the last job says which share is missing and why. Behind
# afterok it would never start, and say nothing.
status=0
sbatch --wait --dependency="afterany:$array" --chdir="$work" --output="$work/log/merge" \
    "$here/merge.sbatch" >/dev/null || status=$?
cat "$work/log/merge"
exit $status
