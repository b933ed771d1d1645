#!/bin/sh
# Says what a change does in the garden, for its review: comment.md, and a picture of the first evening that differs, before and after, for each site.
#   BASE=REVISION docs/ci/review.sh [FOLDER]
# Run it in the checkout; BASE is the revision that the change is made to. WATERSCRIPT names the program where it is not on the path.
# Pictures: review/SITE.before.svg and review/SITE.after.svg. Nothing is written where nothing changes.
set -eu
program=${WATERSCRIPT:-waterscript}
folder=${1:-.}
base=$(git merge-base "${BASE:?}" HEAD)

# Status 1: something changes, which is no failure here.
changes() { "$program" diff "$base..HEAD" "$folder" "$@" || [ $? -eq 1 ]; }

rm -rf review comment.md
changes --quiet --report json -o review.json
changes --quiet --report markdown -o comment.md
mkdir review
before=$(mktemp -d)
git worktree add --quiet --detach "$before" "$base"
trap 'git worktree remove --force "$before"' EXIT

# The date on which each site differs first, and its file; two days from the noon before show it, early in the morning too.
awk -F '"' '/^      "file":/ { file = old = $4 } /^      "old_file":/ { old = $4 } /^        "first_different":/ { print $4 "|" old "|" file }' \
  review.json >review/list
while IFS='|' read -r date old file; do
  from=$(date -u -d "$date -1 day" +%F 2>/dev/null || date -u -j -v-1d -f %F "$date" +%F)
  name=$(printf %s "${file%.water}" | tr -c 'A-Za-z0-9-' -)
  "$program" chart "$before/$(git rev-parse --show-prefix)$old" --quiet --from "$from" --days 2 -o "review/$name.before.svg" || continue
  "$program" chart "$file" --quiet --from "$from" --days 2 -o "review/$name.after.svg" || continue
  printf '\nThe first days that differ, from noon of %s: `%s.before.svg` and `%s.after.svg` among the files of this job.\n' "$from" "$name" "$name" >>comment.md
done <review/list
rm review/list
