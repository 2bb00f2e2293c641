# Linkrod: `make run` and `make test`. Nothing is built again that is newer than what it is made from.

GO_WANTED   := 1.26
NODE_WANTED := 20.19

ADDR ?= localhost:7075
DATA ?= data

# Without inlining the core is an eighth smaller to download; what computes keeps it. The last match counts.
SMALL := -gcflags=all=-l -gcflags=linkrod/radial/oil= -gcflags=linkrod/radial/ring= -gcflags=internal/runtime/...= -gcflags=math=

CORE  := pwa/src/worker/core.wasm
EDITOR := pwa/src/worker/editor.wasm
SUMS  := pwa/src/worker/sums.wasm
EXEC  := pwa/src/worker/wasm_exec.js
NPM   := pwa/node_modules/.package-lock.json
FRONT := embed/dist/index.html
BIN   := build/linkrod

# The shelves that come along, as the phone keeps them, and the shape of a card for any editor.
SHELVES := $(patsubst testdata/shelves/%/shelf.yaml,pwa/public/shelves/%.json,$(wildcard testdata/shelves/*/shelf.yaml)) pwa/public/card.schema.json

# Folders are listed too: a deleted file changes its folder's time and so rebuilds.
SHARED_SRC := $(shell find radial sync pwa/wasm pwa/seam pwa/editor-wasm pwa/sums-wasm -not -name '*_test.go' -not -path '*/testdata/*') go.mod
FRONT_SRC  := $(shell find pwa/src pwa/sw pwa/public pwa/scripts testdata/demo -not -path 'pwa/public/shelves*' -not -name '*.wasm' -not -name wasm_exec.js 2>/dev/null) \
	pwa/index.html pwa/package.json pwa/vite.config.ts pwa/svelte.config.js pwa/tsconfig.json
SERVER_SRC := $(shell find server embed -not -path 'embed/dist*' -not -name '*_test.go' -not -path '*/testdata/*') go.mod go.sum

.PHONY: run build core front clean need-go need-node need-tools \
	test test-lint test-go test-wasm test-fuzz test-front test-browser soak bench mutate

## run: build what is older than its sources, start the server with its data in ./data
run: $(BIN)
	@exec $(BIN) serve -data $(DATA) -addr $(ADDR)

## build: the whole program as one file, build/linkrod
build: $(BIN)

## core: the Go core for the phone, and what the sums and the card editor have of their own
core: $(CORE) $(SUMS) $(EDITOR) $(EXEC)

## front: the front end in embed/dist
front: $(FRONT)

$(BIN): $(SHARED_SRC) $(SERVER_SRC) $(FRONT) | need-go
	CGO_ENABLED=0 go build -trimpath -ldflags="-s -w" -o $@ ./server

$(CORE): $(SHARED_SRC) | need-go
	GOOS=js GOARCH=wasm go build -trimpath -ldflags="-s -w" $(SMALL) -o $@ ./pwa/wasm

$(SUMS): $(SHARED_SRC) | need-go
	GOOS=js GOARCH=wasm go build -trimpath -ldflags="-s -w" $(SMALL) -o $@ ./pwa/sums-wasm

$(EDITOR): $(SHARED_SRC) go.sum | need-go
	GOOS=js GOARCH=wasm go build -trimpath -ldflags="-s -w" -gcflags=all=-l -o $@ ./pwa/editor-wasm

$(EXEC): go.mod | need-go
	cp "$$(go env GOROOT)/lib/wasm/wasm_exec.js" $@

pwa/public/shelves/%.json: $(shell find testdata/shelves radial/card -not -name '*_test.go') | need-go
	@mkdir -p $(@D)
	go run ./server cards json testdata/shelves/$* > $@.part && mv $@.part $@

pwa/public/card.schema.json: radial/card/cardtext/card.schema.json
	cp $< $@

$(NPM): pwa/package-lock.json | need-node
	cd pwa && npm ci --no-audit --no-fund
	@touch $@

$(FRONT): $(NPM) $(CORE) $(SUMS) $(EDITOR) $(EXEC) $(SHELVES) $(FRONT_SRC)
	cd pwa && npm run --silent build

# ---- tests -----------------------------------------------------------------------------------

STATICCHECK := build/staticcheck
STATICCHECK_VERSION := v0.8.2
PURE := ./radial/... ./sync/...
FUZZ_SECONDS ?= 3
SOAK_SECONDS ?= 30
SEEDS ?= 20000

## test: everything: Go, Go as wasm, fuzzing, front-end checks, sizes, three real browsers
test: need-tools test-lint test-go test-wasm test-fuzz test-front test-browser
	@echo "everything passed"

need-tools:
	@.ci/tools

## test-lint: gofmt, vet and staticcheck, for the server's and the phone's build
test-lint: $(BIN) $(STATICCHECK)
	@test -z "$$(gofmt -l $$(git ls-files '*.go'))" || { echo "gofmt would change:"; gofmt -l $$(git ls-files '*.go'); exit 1; }
	go vet ./... ./.ci/mutate
	GOOS=js GOARCH=wasm go vet ./pwa/wasm ./pwa/editor-wasm ./pwa/sums-wasm ./pwa/seam $(PURE)
	$(STATICCHECK) ./...
	GOOS=js GOARCH=wasm $(STATICCHECK) ./pwa/wasm ./pwa/editor-wasm ./pwa/sums-wasm ./pwa/seam $(PURE)

$(STATICCHECK): Makefile | need-go
	GOBIN=$(CURDIR)/build go install honnef.co/go/tools/cmd/staticcheck@$(STATICCHECK_VERSION)
	@touch $@

## test-go: the Go tests, with the race detector
test-go: $(BIN)
	go test -race ./... ./.ci/mutate
	go test -v -run 'World|Mutants' ./sync/simulate

## test-wasm: the pure packages once more, as the phone runs them
test-wasm: | need-go
	PATH="$$PATH:$$(go env GOROOT)/lib/wasm" GOOS=js GOARCH=wasm go test $(PURE)

## test-fuzz: every fuzz target for a few seconds, all together within four minutes
test-fuzz: | need-go
	.ci/fuzz $(FUZZ_SECONDS) 240

## test-front: types, lint, format, unit tests and the size budgets of the front end
test-front: $(FRONT)
	cd pwa && npm run --silent check && npm run --silent test && npm run --silent size

## test-browser: the real program and real browsers, the server really killed
test-browser: $(BIN) need-tools
	cd pwa && npx playwright test
	cd pwa && node e2e/firefox.mjs
	cd pwa && LANG=en_GB.UTF-8 xvfb-run -a node e2e/webkit.mjs

## soak: longer fuzzing and the long simulations; SEEDS worlds of phones and a server
soak: | need-go
	go test -v -timeout 0 -run World ./sync/simulate -seeds $(SEEDS)
	.ci/fuzz $(SOAK_SECONDS)
	go test -count=1 -v -timeout 40m -run TestKill ./server -kills 200 -pushes 10000

## bench: what it costs, native and as wasm with the ratio, and how good the oil rate is on 10,000 simulated logs
bench: | need-go
	.ci/bench
	go test -count=1 -v -run 'Published|Bounds' ./radial/oil/simulate -series 500 -scenarios all

## mutate: whether the tests of radial/ notice 390 small changes of its arithmetic; about half an hour, see .ci/mutate
mutate: | need-go
	go run ./.ci/mutate

## clean: remove everything that was built; data stays
clean:
	rm -rf build pwa/node_modules $(CORE) $(EDITOR) $(EXEC) pwa/public/shelves pwa/public/card.schema.json
	find embed/dist -mindepth 1 -not -name .gitkeep -delete

need-go:
	@command -v go >/dev/null || { echo "Linkrod needs Go $(GO_WANTED) or newer to build: https://go.dev/dl"; exit 1; }

need-node:
	@command -v node >/dev/null && node -e 'const [a,b]=process.versions.node.split("."); process.exit(+a>20||(+a===20&&+b>=19)?0:1)' \
		|| { echo "Linkrod needs Node $(NODE_WANTED) or newer to build its front end: https://nodejs.org"; exit 1; }
