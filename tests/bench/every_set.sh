#!/usr/bin/env bash
# Runs cutbench over the published sets in tests/bench/data, every variant that has known values, and
# leaves a CSV and a text of the comparison for each in OUT. The large sets take up to an hour.
#   tests/bench/every_set.sh BIN_FOLDER OUT [SET...]
set -uo pipefail
data=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)/data
[ $# -ge 2 ] || { echo "usage: every_set.sh BIN_FOLDER OUT [SET...]" >&2; exit 2; }
cutbench=$1/cutbench out=$2
shift 2
mkdir -p "$out"
bugs=0

# one SET STAGES FIRST TRIM ROTATION KERF SECONDS [OPTION...]
one() {
  local set=$1 name="$1-$2-$3-$4-$5-$6"
  echo "== $name, $7 s each"
  "$cutbench" "$data/$set" --stages "$2" --first-cut "$3" --trim "$4" --rotation "$5" --kerf "$6" \
    --seconds "$7" "${@:8}" --csv "$out/$name.csv" --compare "$data/$set/expected.csv" \
    2>&1 | tee "$out/$name.txt"
  [ "${PIPESTATUS[0]}" = 0 ] || bugs=$((bugs + 1))
}

unconstrained_guillotine() {
  local stages first trim rotation
  for stages in 2 3; do for first in x y any; do for trim in exact nonexact; do
    for rotation in no yes; do one "$FUNCNAME" $stages $first $trim $rotation 0 60; done
  done; done; done
}
defects_unconstrained() {
  local first trim rotation
  for first in x y any; do for rotation in no yes; do
    for trim in exact nonexact; do one "$FUNCNAME" 2 $first $trim $rotation 0 60; done
    one "$FUNCNAME" 3 $first exact $rotation 0 60
  done; done
}
red_oak_boards_1998() {
  local first kerf
  for first in x y any; do for kerf in 0 1; do one "$FUNCNAME" 2 $first exact no $kerf 60; done; done
}
constrained_guillotine() {
  local first trim
  for first in x y; do for trim in exact nonexact; do
    one "$FUNCNAME" 2 $first $trim no 0 10 --rows own
  done; done
  one "$FUNCNAME" 3 any exact no 0 5
  one "$FUNCNAME" 3 any exact yes 0 3
}
multi_board_knapsack() {
  one "$FUNCNAME" 3 any exact no 0 15
  one "$FUNCNAME" 3 any exact yes 0 15
}
guillotine_feasibility() {
  one "$FUNCNAME" 3 any nonexact no 0 5
  one "$FUNCNAME" 3 any nonexact yes 0 5
}
# By counted work alone, whatever the seconds.
one_dimensional() { one "$FUNCNAME" 2 x exact no 0 60; }
cutting_stock_2d() {
  one "$FUNCNAME" 2 y nonexact no 0 20 --rows own
  one "$FUNCNAME" 3 any nonexact no 0 3
  one "$FUNCNAME" 3 any nonexact yes 0 3
}

[ $# -gt 0 ] || set -- unconstrained_guillotine defects_unconstrained red_oak_boards_1998 \
  constrained_guillotine multi_board_knapsack guillotine_feasibility one_dimensional cutting_stock_2d
for set in "$@"; do "$set"; done
echo "$bugs variants with plans or bounds that cannot be true"
[ $bugs = 0 ]
