#!/bin/sh
# Checks one part of a list of sites, for jobs that run side by side on any number of machines.
#   docs/ci/fleet-part.sh LIST PART PARTS OUT
# LIST has a path a line; PART counts from 0, as the index of a job does; OUT is a folder for the report, OUT/PART.sarif.
# WATERSCRIPT names the program where it is not on the path. Status as of `waterscript check`.
set -eu
list=$1 part=$2 parts=$3 out=$4
program=${WATERSCRIPT:-waterscript}
mkdir -p "$out"
# Line by line to one part after the other: each gets large and small sites.
split -n "r/$((part + 1))/$parts" "$list" | "$program" check --files-from - --quiet --report sarif -o "$out/$part.sarif"
