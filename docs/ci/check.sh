#!/bin/sh
# Checks all sites of a folder on any runner of jobs, and leaves two reports: one for people in the log, one for programs in findings.sarif.
#   docs/ci/check.sh [FOLDER]
# WATERSCRIPT names the program where it is not on the path; STRICT=1 lets a warning stop the job, too.
# Status 0: fine; 1: an error in a site; 2: the check could not run.
set -u
program=${WATERSCRIPT:-waterscript}
folder=${1:-.}
strict=${STRICT:+--strict}

# The report for programs is there whatever the status is; a check that could not run stops the job here.
"$program" check "$folder" --quiet --report sarif -o findings.sarif
[ $? -le 1 ] || exit 2
# On GitHub the same findings stand beside the lines of the change.
if [ "${GITHUB_ACTIONS:-}" = true ]; then "$program" check "$folder" --quiet --report github; fi
exec "$program" check "$folder" $strict
