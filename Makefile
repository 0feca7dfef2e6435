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

# Writes the demo workbooks and opens them in a second program, which must find
# no error; needs LibreOffice Calc, poppler-utils and unzip.
workbook-check:
	@set -e; dir=$$(mktemp -d); trap 'rm -rf "$$dir"' EXIT; \
	for demo in juniper fjord; do for units in us metric; do \
		$(GO) run ./cmd/tripwear plan --demo=$$demo --units $$units --quiet -o "$$dir/$$demo-$$units.xlsx" >/dev/null; \
		.ci/workbook-check "$$dir/$$demo-$$units.xlsx"; \
	done; done
