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
	$(GO) test -race -short ./...

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

# Recalculates the demo workbooks in a second program, which must come to the
# same values, follow changed inputs and find no error on any page; needs
# LibreOffice Calc, poppler-utils and unzip.
workbook-check:
	@for tool in soffice pdftoppm pdftotext unzip; do command -v $$tool >/dev/null || { \
		echo "workbook-check: $$tool is not installed; it needs LibreOffice Calc, poppler-utils and unzip:"; \
		echo "  apt-get install -y --no-install-recommends libreoffice-calc-nogui poppler-utils fonts-dejavu-core unzip"; exit 1; }; done
	$(GO) vet -tags engine ./planner/workbook
	$(GO) test -tags engine -count=1 -run Engine ./planner/workbook
	@set -e; dir=$$(mktemp -d); trap 'rm -rf "$$dir"' EXIT; \
	for demo in juniper fjord; do for units in us metric; do \
		$(GO) run ./cmd/tripwear plan --demo=$$demo --units $$units --quiet -o "$$dir/$$demo-$$units.xlsx" >/dev/null; \
		.ci/workbook-check "$$dir/$$demo-$$units.xlsx"; \
	done; done
