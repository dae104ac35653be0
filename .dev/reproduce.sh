#!/usr/bin/env bash
# Builds the page a second time, from a copy of the source in another folder and without anything
# that was compiled before, and holds every file against dist/: two builds, the same bytes.
. "$(dirname "$0")/base.sh"
[ -f dist/index.html ] || .dev/build.sh
need git "install git"

# Another place, deeper and of another length, so that no path can be in a file unnoticed.
copy=$PWD/target/reproduce/another/place/evenkeel
rm -rf target/reproduce
mkdir -p "$copy"
trap 'rm -rf target/reproduce' EXIT
# What git would take, as it stands here.
git ls-files -z --cached --others --exclude-standard | while IFS= read -r -d '' name; do
    [ ! -e "$name" ] || printf '%s\0' "$name"
done | tar --null --files-from=- -cf - | tar -xf - -C "$copy"
# Tools and packages are downloads, pinned; what they make is what is compared.
ln -s "$tools" "$copy/.tools"
ln -s "$PWD/.dev/node_modules" "$copy/.dev/node_modules"
say "building the page once more, in $copy"
env -u CARGO_TARGET_DIR "$copy/.dev/build.sh"

differ=()
while read -r name; do
    cmp -s "dist/$name" "$copy/dist/$name" || differ+=("$name")
done < <({ (cd "$copy/dist" && find . -type f) && (cd dist && find . -type f); } | sort -u)
[ ${#differ[@]} = 0 ] || stop "not the same in both builds: ${differ[*]#./}"
say "$(find dist -type f | wc -l) files, the same bytes in both builds"
