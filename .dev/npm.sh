#!/usr/bin/env bash
# npm.sh FOLDER: installs a folder's npm packages exactly as its lock file has them.
. "$(dirname "$0")/base.sh"
need_node
one_at_a_time
cd "$1"
# npm leaves no mark of an install that ended well, so the copy of the lock file is that mark.
cmp -s package-lock.json node_modules/.installed-lock && exit
say "installing $(sed -n '/"dependencies"/,/}/s/^ *"\(.*\)": "\(.*\)".*/\1 \2/p' package.json | paste -sd, | sed 's/,/, /g') (seconds, once)"
npm ci --silent </dev/null || npm ci </dev/null || stop "the npm packages of $1 could not be installed, see above"
cp package-lock.json node_modules/.installed-lock
