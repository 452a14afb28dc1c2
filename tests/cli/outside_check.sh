#!/bin/sh
# Every studio's plan, recomputed from its JSON alone by a program that shares nothing with placer.
#   outside_check.sh PLACER ROOT
placer=$1
root=$2
bad=0
for studio in "$root"/demo/studio.yaml "$root"/tests/data/studios/*.yaml; do
  plan=$(mktemp)
  SOURCE_DATE_EPOCH=1793750400 "$placer" load -q --json "$studio" >"$plan"
  status=$?
  if [ "$status" -gt 1 ]; then
    echo "$studio: placer load ended with $status"
    bad=1
  elif ! node "$root/tests/cli/check_plan.mjs" "$plan"; then
    echo "$studio: see above"
    bad=1
  fi
  rm -f "$plan"
done
exit $bad
