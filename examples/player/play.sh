#!/bin/sh
# Plays a list of switchings: prints what a device would do, second by second, and drives nothing itself. It is a model
# to write a device's own program after. What it does, and why: docs/carrying-out-a-timetable.md
#
#   play.sh [--from EPOCH] [--cut EPOCH] [--speed N] [--controller NAME] [--outputs N] [--stagger MS] LIST…
#
#   LIST…              what "waterscript compile FILE --to csv --only switchings" writes, the newest first: the first
#                      one that is whole is played, the others are not looked at; "--" before one that begins with "-"
#   --from EPOCH       the power comes on at this second of the device's clock; default: now
#   --cut EPOCH        the power goes at this second; default: never
#   --speed N          how many seconds of the list pass in one; 0: all at once; default: 1
#   --controller NAME  play no list but this controller's; default: whichever it is for
#   --outputs N        how many outputs there are to close; default: as many as the list names
#   --stagger MS       least time between two pulses, and between two openings; default: 0
#
# Status: 0 played, or rested as it should; 1 no list is whole; 2 called wrongly; 3 the clock is not set.
set -eu
export LC_ALL=C

wrong() { printf 'play.sh: %s; how to call it is said at its top\n' "$1" >&2; exit 2; }

from=$(date +%s) cut=0 speed=1 controller='' outputs=0 stagger=0
while [ $# -gt 0 ]; do
  case $1 in
    --controller) [ -n "${2-}" ] || wrong "$1 needs a name"; controller=$2 ;;
    --from | --cut | --speed | --outputs | --stagger)
      # No sign, no fraction, no 0 in front, and not so long that calculating with it goes wrong.
      case ${2-} in '' | *[!0-9]* | 0?* | ???????????*) wrong "$1 needs a whole number of ten digits at most" ;; esac
      eval "${1#--}=\$2" ;;
    --) shift; break ;;
    -*) wrong "there is no $1" ;;
    *) break ;;
  esac
  shift 2
done
[ "$outputs" -le 4096 ] || wrong "--outputs needs 4096 at most"
[ $# -gt 0 ] || wrong "a list is needed"

header=t,after_ms,controller,output,do,polarity,pulse_ms,max_on_s,opening
cr=$(printf '\r')
# The list as it was hashed: in the last line neither the hash nor, behind the times, what the list comes from.
unsigned="\$s/^\\(end,[^,]*\\),[^,]*,\\([^,]*,[^,]*\\),[^,]*,[^,]*,[^,]*,[^,$cr]*/\\1,,\\2,,,,/"
command -v sha256sum >/dev/null || sha256sum() { shasum -a 256; }

# Prints what is wrong with a list, or nothing where it is whole and understood. Nothing is switched before that is known.
fault() (
  [ -f "$1" ] || { echo "there is no such file"; exit; }
  [ "$(head -n 1 "$1" | tr -d '\000')" = "$header$cr" ] || { echo "its first line is not that of a list of switchings"; exit; }
  [ "$(tail -c 1 "$1" | wc -l)" -eq 1 ] || { echo "it is cut off in the middle of a line"; exit; }
  rows=$(($(sed '$d' "$1" | wc -l) - 1))
  hash=$(sed "$unsigned" "$1" | sha256sum | cut -c 1-64)
  case $(tail -n 1 "$1" | tr -d '\000') in
    "end,$rows,$hash,"*"$cr") ;;
    "end,$rows,"*) echo "it is altered: its hash is $hash"; exit ;;
    end,*) echo "it has $rows rows, and was written with another number"; exit ;;
    *) echo "it is cut off: the last line with its count and hash is missing"; exit ;;
  esac
  # What follows is printed in messages, so no byte may be left that a terminal would take for a command.
  [ "$(tr -d '\040-\176\200-\377\r\n' <"$1" | wc -c)" -eq 0 ] || { echo "it has bytes that are no text"; exit; }
  CONTROLLER=$controller awk -F , -v outputs="$outputs" '
    function say(what) { print "line " NR ": " what; exit }

    # Digits only, no 0 in front that could mean eight, and no more than awk and a small board calculate with exactly.
    function is_whole(text, least, most) { return text ~ /^(0|[1-9][0-9]*)$/ && length(text) <= 10 && text + 0 >= least && text + 0 <= most }
    function is_pulse(text) { return text ~ /^(0|[1-9][0-9]*)([.][0-9]+)?$/ && length(text) <= 10 && text + 0 > 0 && text + 0 <= 10000 }

    BEGIN { controller = ENVIRON["CONTROLLER"]; last = 4294967295 }
    ended { say("a line after the closing one") }
    !sub(/\r$/, "") || /\r/ { say("it does not end in CR LF, or has a CR within") }
    NR == 1 { next }
    NF != 9 { say(NF " fields, and there should be 9") }
    $1 == "end" { ended = 1; if (!is_whole($4, 0, last) || !is_whole($5, 0, last) || $5 + 0 <= $4 + 0) say("not a time to begin and one to end"); next }
    !is_whole($1, 0, last) || !is_whole($2, 0, 999) || !is_whole($8, 1, last) { say("not a row with a time and a max_on_s") }
    $1 * 1000 + $2 < due { say("earlier than the line before it") }
    $3 !~ /^[A-Za-z_\200-\377][A-Za-z0-9_\200-\377-]*$/ || $3 ~ /\302[\200-\237]/ { say("not the name of a controller") }
    controller == "" { controller = $3 }
    $3 "" != controller "" { say("for the controller " $3 ", not for " controller) }
    !is_whole($4, 1, 4096) || outputs + 0 && $4 + 0 > outputs + 0 { say("there is no output " $4) }
    $5 != "open" && $5 != "close" { say("\"" $5 "\" is neither open nor close") }
    $6 != "" && $6 != ($5 == "open" ? "positive" : "negative") { say("a pulse that is " $6 " does not " $5) }
    $7 != "" && ($6 == "" || !is_pulse($7)) { say("not a pulse of up to 10000 ms") }
    !is_whole($9, 1, last) { say("not the number of an opening") }
    { kind = ($6 != "") "," $7 "," $8 }
    $4 in kinds && kinds[$4] != kind { say("output " $4 " has another pulse or max_on_s than before") }
    { kinds[$4] = kind; due = $1 * 1000 + $2 }' "$1"
)

list='' hash=''
for candidate; do
  # A name such as a=b would be an assignment to awk, and one such as -n an option.
  case $candidate in /*) path=$candidate ;; *) path=./$candidate ;; esac
  why=$(fault "$path")
  [ -n "$why" ] || { list=$path; break; }
  printf 'play.sh: %s is refused: %s\n' "$candidate" "$why" >&2
done
[ -z "$list" ] || hash=$(tail -n 1 "$list" | cut -d , -f 3 | cut -c 1-12)

# The list is read twice: once for what there is to switch, once to play it. Times are in milliseconds.
# What an output has to be at a moment follows from the list and the clock alone. So the rows before that moment are
# played as well, silently; after them it is known what is still due.
exec awk -F , -v from="$from" -v cut="$cut" -v speed="$speed" -v outputs="$outputs" -v stagger="$stagger" -v list="$hash" '
  function say(output, what, polarity, pulse, why, opening) {
    printf "%.3f,%s,%s,%s,%s,%s,%s,%s,%s\n", now / 1000, name, output, what, polarity, pulse, why, opening, list
  }

  function rest(why) { say("", "rest", "", "", why, "") }

  # Pulses, and openings of every kind, keep their distance; what the list does not name may be a latching valve.
  # What is so late that the guard is due already stays closed. It is here that a device would move a pin.
  function send(output, what, why,   is_spaced) {
    if (silent) return
    is_spaced = what == "open" || latching[output] || !(output in named)
    if (is_spaced) wait(free)
    if (what == "open" && guard[output] <= now) return
    if (is_spaced) free = now + stagger
    say(output, what, !latching[output] ? "" : what == "open" ? "positive" : "negative", pulse[output], why, why == "power-up" ? "" : opening[output])
  }

  function wait(until) {
    if (cut && until >= cut) { finished = 1; exit }
    if (until <= now) return
    if (speed) { fflush(); system(sprintf("sleep %.3f", (until - now) / 1000 / speed)) }
    now = until
  }

  # Lets time go by. What would be open for too long is closed on the way, whatever the list says.
  function go_on(until,   output, first) {
    do {
      first = 0
      for (output = 1; output <= outputs; output++)
        if (output in guard && guard[output] <= until && (!first || guard[output] < guard[first])) first = output
      if (first) { wait(guard[first]); delete guard[first]; send(first, "close", "guard") }
    } while (first)
    wait(until)
  }

  function power_up(   output) {
    now = from
    say("", "boot", "", "", "", "")
    for (output = 1; output <= outputs; output++) send(output, "close", "power-up")
    if (from < 1577836800000) { rest("the clock is not set"); status = 3; finished = 1; exit }    # before 2020
    start = now; silent = 1
  }

  # Opens what is still due, in the order in which it was opened.
  function join(   i, joined) {
    go_on(start); silent = 0
    for (i = 1; i <= turns; i++) if (of[i] in guard && turn[of[i]] == i) { send(of[i], "open", "join"); joined = 1 }
    if (start < begins && !joined) rest("the list begins at " begins / 1000)
  }

  BEGIN { from *= 1000; cut *= 1000; print "time,controller,output,do,polarity,pulse_ms,why,opening,list" }
  { sub(/\r$/, "") }
  NR != FNR && FNR == 1 { power_up() }
  $1 == "end" { begins = $4 * 1000; ends = $5 * 1000 }
  $1 !~ /^[0-9]/ { next }
  NR == FNR {
    name = $3
    if ($4 + 0 > outputs + 0) outputs = $4 + 0
    if ($6 != "") latching[$4] = 1
    named[$4 + 0] = 1
    pulse[$4] = $7
    next
  }

  { due = $1 * 1000 + $2 }
  silent && due > start { join() }
  { go_on(due) }
  $5 == "close" { opening[$4] = $9; delete guard[$4]; send($4, "close", "list") }
  # What is open already is not opened again: it would be given new patience.
  $5 == "open" && !($4 in guard) { opening[$4] = $9; guard[$4] = due + $8 * 1000; of[++turns] = $4; turn[$4] = turns; send($4, "open", "list") }

  END {
    if (finished) exit status
    if (list == "") { power_up(); rest("there is no list"); exit 1 }
    if (silent) join()
    for (output in guard) if (guard[output] > ends) ends = guard[output]
    go_on(ends)
    rest("the list has ended: a new one is needed")
  }' "${list:-/dev/null}" "${list:-/dev/null}"
