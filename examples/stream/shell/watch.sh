#!/bin/sh
# Follows a game from its log and tells what each event did: sh watch.sh GAME.jsonl [COMMAND…]
# COMMAND is how rinkfold is started, `rinkfold` if nothing is given. Needs jq.
set -eu
log=${1:?name a log, for example events.jsonl}
shift
[ $# -gt 0 ] || set -- rinkfold
command -v jq >/dev/null || { echo "This needs jq." >&2; exit 2; }

# In: the events of the log, and three questions. Out: one answer a line, in order.
{
  cat "$log"
  echo '{"ask": "now"}'
  echo '{"ask": "forecast"}'
  echo '{"ask": "summary"}'
} | "$@" stream | jq --raw-output --unbuffered '
  def sitting: "\(.sits // "team-mate") \(.remaining)";
  def time: if . then "\(.period) \(.clock)" else "at a whistle" end;
  if .problems then
    .line as $line | .problems[] | "line \($line): " + ([.field, .message, .fix] | map(select(. // "" != "")) | join(" "))
  elif .ask == "now" then
    "now \(.at | time): \(.score.home)-\(.score.away), home \(.strength.label)",
    (.box | to_entries[] | .key as $team | .value[] | "  in the box: \($team) \(sitting)")
  elif .ask == "forecast" then
    .releases[] | "  next out: \(.team) \(.sits // "team-mate"), \(.out | time)"
  elif .ask == "summary" then
    "power plays: home \(.power_plays.home.count), away \(.power_plays.away.count)"
  else
    "#\(.seq) \(.effect)",
    (.changes[] | select(.change == "returned") | "  time is over for \(.team) \(.who // "team-mate")" + (if .injured then " (recorded as injured)" else "" end) + ": " + .because.rule)
  end'
