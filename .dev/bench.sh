#!/usr/bin/env bash
# Times the chemistry natively.
. "$(dirname "$0")/base.sh"
.dev/rust.sh
cargo bench --locked --no-default-features --bench core
