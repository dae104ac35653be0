# `make serve` and `make test` are the two to know. Each installs what it needs first.
.PHONY: help serve test dist bench clean

help:
	@echo 'make serve   build the page and serve it on http://localhost:8080 (PORT=… for another)'
	@echo 'make test    run every check: formatting, lints, tests, size, three browser engines'
	@echo 'make dist    build the files to host into dist/ and print their sizes'
	@echo 'make bench   measure speed, size and memory on this machine; writes the table in DEVELOPERS.md'
	@echo 'make clean   remove all that was built or installed inside the project'

serve:
	@.dev/serve.sh

test:
	@tests/check.sh

dist:
	@.dev/dist.sh

bench:
	@.dev/bench.sh

clean:
	rm -rf target dist .tools .dev/node_modules tests/browser/node_modules tests/bench/node_modules
