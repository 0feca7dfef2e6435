# Every gate is one target; .ci/run calls them in order.
GO ?= go
STATICCHECK = honnef.co/go/tools/cmd/staticcheck@v0.8.2

.PHONY: all build test race lint bench demo tidy-check workbook-check

all: build lint test

build:
	$(GO) build ./...

test:
	$(GO) test ./...

race:
	$(GO) test -race ./...

lint:
	@test -z "$$(gofmt -l cmd planner profiles wearmodel)" || { echo "not gofmt'd:"; gofmt -l cmd planner profiles wearmodel; exit 1; }
	$(GO) vet ./...
	$(GO) run $(STATICCHECK) ./...

bench:
	$(GO) test -run '^$$' -bench . -benchmem ./...

demo:
	$(GO) run ./cmd/tripwear plan --demo -o plan.xlsx

tidy-check:
	$(GO) mod tidy -diff

# Opens the demo workbooks in a second program and looks for errors; needs
# LibreOffice and poppler-utils.
workbook-check:
	.ci/workbook-check
