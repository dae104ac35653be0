#!/usr/bin/env bash
# Builds the page, serves it on PORT (8080) and builds again when a source file changes.
. "$(dirname "$0")/base.sh"
port=${PORT:-8080}
[[ $port =~ ^[0-9]{1,5}$ ]] && ((port >= 1 && port <= 65535)) ||
    stop "PORT is '$port': give a number from 1 to 65535, for example: make serve PORT=8081"
answers() { (: <>"/dev/tcp/127.0.0.1/$port") 2>/dev/null || (: <>"/dev/tcp/::1/$port") 2>/dev/null; }
answers && stop "port $port is taken by another program: try another, for example: make serve PORT=$((port < 65535 ? port + 1 : 8080))"
need_node

# Trunk takes minutes to build. The first time, the page is put together without it as soon as its
# crates and wasm-bindgen are compiled, and served until Trunk can take over. If that fails, Trunk
# comes to the same place and shows what is wrong.
first=$tools/first
if [ ! -x "$tools/bin/trunk" ]; then
    .dev/rust.sh
    say "compiling the page (a few minutes, once)"
    cargo build --quiet --locked --profile serve --target wasm32-unknown-unknown --bin evenkeel &
    page=$!
    trap 'kill $(jobs -p) 2>/dev/null || true' EXIT
    .dev/tools.sh wasm-bindgen
    if wait $page && wasm-bindgen --target web --no-typescript --out-dir "$first" \
        target/wasm32-unknown-unknown/serve/evenkeel.wasm; then
        node .dev/page.mjs first "$first" "$port" &
        until answers || ! kill -0 $! 2>/dev/null; do sleep 0.1; done
        say "serving on http://localhost:$port (Ctrl-C ends it)"
        say "changes are picked up once Trunk is there, which builds the page from then on:"
    fi
fi
.dev/rust.sh
cargo fetch --quiet --target wasm32-unknown-unknown --target "$(rustc -vV | sed -n 's/^host: //p')"
.dev/tools.sh wasm-bindgen trunk
kill $(jobs -p) 2>/dev/null && wait 2>/dev/null
rm -rf "$first"
say "building the page (about a minute the first time, then seconds)"
page=$tools/served
mkdir -p "$page"
rm -f "$page/index.html"

# Trunk takes over this process; the watcher beside it speaks once the page is there.
(
    while kill -0 $$ 2>/dev/null; do
        if answers; then
            if [ -e "$page/index.html" ]; then
                say "serving on http://localhost:$port (Ctrl-C ends it; reload the page after a change)"
            else
                say "the build failed, see above: it is tried again when a source file changes"
            fi
            break
        fi
        sleep 0.3
    done
) &
exec trunk --log warn serve --cargo-profile serve --port "$port" --dist "$page"
