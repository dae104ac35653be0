#!/usr/bin/env bash
# Holds what others wrote against .deny.toml and against what is known of it: crates, and the npm
# packages that build and test. What cannot be asked from here is said; what is found fails.
. "$(dirname "$0")/base.sh"
.dev/tools.sh deny
for folder in .dev tests/browser; do .dev/npm.sh "$folder"; done
# deny COMMAND…: cargo-deny on this project.
deny() { cargo-deny --locked --config .deny.toml "$@"; }

deny check licenses bans sources

# The database of advisories is a repository at a host of its own.
databases=target/deny # As in .deny.toml.
rm -rf "$databases"
if deny fetch db >"$databases.log" 2>&1; then
    deny check advisories
else
    say "advisories on crates not checked: $(grep -m1 -E '^fatal|^error' "$databases.log" || tail -n1 "$databases.log")"
    # Crates that were withdrawn are told by the crates' own registry, but cargo-deny asks only with
    # a database: this one has an advisory on no crate.
    none=$databases/$(grep -o 'advisory-db-[0-9a-f]*' "$databases.log" | head -n1)
    mkdir -p "$none/crates/none"
    printf '```toml\n[advisory]\nid = "RUSTSEC-2000-0001"\npackage = "none"\ndate = "2000-01-01"\n[versions]\npatched = []\n```\n\n# None\n\nNone.\n' \
        >"$none/crates/none/RUSTSEC-2000-0001.md"
    git init --quiet "$none"
    git -C "$none" -c user.name=none -c user.email=none commit --quiet --allow-empty --message none
    deny --offline check advisories >"$databases.log" 2>&1 || {
        cat "$databases.log" >&2
        exit 1
    }
    say "no crate was withdrawn"
fi

# Some registries answer no questions about advisories: that alone is let pass.
for folder in .dev tests/browser; do
    if report=$(cd "$folder" && npm audit --audit-level=moderate 2>&1); then
        say "npm packages of $folder: $(tail -n1 <<<"$report")"
    elif grep -q '405 Method Not Allowed' <<<"$report"; then
        say "npm packages of $folder: advisories not checked, the registry answers 405"
    else
        printf '%s\n' "$report" >&2
        stop "npm packages of $folder: see above"
    fi
done
