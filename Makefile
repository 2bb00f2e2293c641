# Linkrod: `make run` and `make test`. Nothing is built again that is newer than what it is made from.

GO_WANTED   := 1.26
NODE_WANTED := 20.19

PORT ?= 7075
DATA ?= data

CORE  := pwa/src/worker/core.wasm
EXEC  := pwa/src/worker/wasm_exec.js
NPM   := pwa/node_modules/.package-lock.json
FRONT := embed/dist/index.html
BIN   := build/linkrod

# Folders are listed too: a deleted file changes its folder's time and so rebuilds.
SHARED_SRC := $(shell find radial sync pwa/wasm -not -name '*_test.go' -not -path '*/testdata/*') go.mod
FRONT_SRC  := $(shell find pwa/src pwa/sw pwa/public pwa/scripts testdata/demo -not -name core.wasm -not -name wasm_exec.js 2>/dev/null) \
	pwa/index.html pwa/package.json pwa/vite.config.ts pwa/svelte.config.js pwa/tsconfig.json
SERVER_SRC := $(shell find server embed -not -path 'embed/dist*' -not -name '*_test.go' -not -path '*/testdata/*') go.mod go.sum

.PHONY: run build core front clean need-go need-node

## run: build what is older than its sources, start the server with its data in ./data
run: $(BIN)
	@exec $(BIN) serve -data $(DATA) -addr localhost:$(PORT)

## build: the whole program as one file, build/linkrod
build: $(BIN)

## core: the Go core for the phone
core: $(CORE) $(EXEC)

## front: the front end in embed/dist
front: $(FRONT)

$(BIN): $(SHARED_SRC) $(SERVER_SRC) $(FRONT) | need-go
	CGO_ENABLED=0 go build -trimpath -ldflags="-s -w" -o $@ ./server

$(CORE): $(SHARED_SRC) | need-go
	GOOS=js GOARCH=wasm go build -trimpath -ldflags="-s -w" -o $@ ./pwa/wasm

$(EXEC): $(CORE)
	cp "$$(go env GOROOT)/lib/wasm/wasm_exec.js" $@

$(NPM): pwa/package-lock.json | need-node
	cd pwa && npm ci --no-audit --no-fund
	@touch $@

$(FRONT): $(NPM) $(CORE) $(EXEC) $(FRONT_SRC)
	cd pwa && npm run --silent build

## clean: remove everything that was built; data stays
clean:
	rm -rf build pwa/node_modules $(CORE) $(EXEC)
	find embed/dist -mindepth 1 -not -name .gitkeep -delete

need-go:
	@command -v go >/dev/null || { echo "Linkrod needs Go $(GO_WANTED) or newer to build: https://go.dev/dl"; exit 1; }

need-node:
	@command -v node >/dev/null && node -e 'const [a,b]=process.versions.node.split("."); process.exit(+a>20||(+a===20&&+b>=19)?0:1)' \
		|| { echo "Linkrod needs Node $(NODE_WANTED) or newer to build its front end: https://nodejs.org"; exit 1; }
