# make test    installs what the tests need, then checks and tests everything
# make bench   measures speed and memory and writes docs/PERFORMANCE.md
# make build   makes the program: jounce
# make write   makes again what is generated: schema, manual, picture, VALIDATION.md

SHELL := /bin/bash
.SHELLFLAGS := -euo pipefail -c
export CGO_ENABLED := 0
# the stamp of a commit is not needed by tests, and a bare machine may lack git
export GOFLAGS := -buildvcs=false

.PHONY: build tools test bench write

build:
	GOFLAGS= go build -trimpath -o jounce ./cmd/jounce

tools:
	./tools/install

test: tools
	@bad="$$(gofmt -l $$(find . -name '*.go' -not -path './.git/*'))"; \
	if [ -n "$$bad" ]; then echo "not formatted (gofmt -w):"; echo "$$bad"; exit 1; fi
	go vet ./...
	go test -timeout 25m ./...
	@echo "gofmt, go vet and go test ./... have passed."

bench:
	go run ./bench -write docs/PERFORMANCE.md

write:
	SCHEMA=write go test ./internal/job -run TestSchemaFile -count=1
	MANUAL=write go test ./internal/cli -run TestManual -count=1
	PICTURE=write go test ./internal/cli -run TestPicture -count=1
	VALIDATION=write go test ./... -run TestPublished -count=1
	VALIDATION=write go test ./internal/evidence -run TestPage -count=1
