#!/usr/bin/env bash
# Builds the files to host into dist/ and prints every size; fails when they are over the budget.
. "$(dirname "$0")/base.sh"
.dev/build.sh
node .dev/size.mjs dist
