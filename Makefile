# Every gate is one target; .ci/run calls them in order.
GO ?= go
STATICCHECK = honnef.co/go/tools/cmd/staticcheck@v0.8.2

.PHONY: all build test race lint bench demo tidy-check workbook-check card-check readers-check formulas-check garage-check cross rounding-check install-check man-check pictures fuzz

all: build lint test

build:
	$(GO) build ./...

test:
	$(GO) test ./...

# Asks the compiler where another processor would round otherwise.
rounding-check:
	.ci/rounding

race:
	$(GO) test -race -short -timeout 20m ./...

lint:
	@test -z "$$(gofmt -l cmd planner profiles testdata wearmodel)" || { echo "not gofmt'd:"; gofmt -l cmd planner profiles testdata wearmodel; exit 1; }
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

# Looks at cards in a browser, at the widths of phones and a desk and in print:
# both demos, a trip of twelve legs, one half driven, one that is not safe.
card-check:
	@for tool in chromium pdfinfo pdftotext /usr/bin/python3; do command -v $$tool >/dev/null || { \
		echo "card-check: $$tool is not installed:"; \
		echo "  apt-get install -y --no-install-recommends chromium poppler-utils python3-html5lib fonts-dejavu-core"; exit 1; }; done
	@set -e; dir=$$(mktemp -d); trap 'rm -rf "$$dir"' EXIT; $(GO) build -o "$$dir/tripwear" ./cmd/tripwear; \
	for units in us metric; do for demo in juniper fjord; do \
		"$$dir/tripwear" plan --demo=$$demo --units $$units --quiet -o "$$dir/$$demo-$$units.html" >/dev/null; done; done; \
	"$$dir/tripwear" new "$$dir/car" --demo >/dev/null; cp testdata/card/*.yaml "$$dir/car/trips/"; cp testdata/card/logbook.csv "$$dir/car/"; \
	for trip in long spring; do "$$dir/tripwear" plan $$trip --car "$$dir/car" --quiet -o "$$dir/$$trip.html" >/dev/null || [ $$? = 1 ]; done; \
	.ci/card-check "$$dir"/*.html

# Workbooks read by two other programs; needs python3-openpyxl, node and npm.
readers-check:
	@set -e; dir=$$(mktemp -d); trap 'rm -rf "$$dir"' EXIT; $(GO) build -o "$$dir/tripwear" ./cmd/tripwear; \
	for demo in juniper fjord; do \
		"$$dir/tripwear" plan --demo=$$demo --quiet -o "$$dir/$$demo.xlsx" >/dev/null; \
		"$$dir/tripwear" new --demo=$$demo "$$dir/garage-$$demo.xlsx" >/dev/null; done; \
	.ci/readers-check "$$dir"/*.xlsx

# Every formula in a third engine, npm's hyperformula; needs node and npm. Not in
# .ci/run.
formulas-check:
	@set -e; dir=$$(mktemp -d); trap 'rm -rf "$$dir"' EXIT; $(GO) build -o "$$dir/tripwear" ./cmd/tripwear; \
	for demo in juniper fjord; do "$$dir/tripwear" plan --demo=$$demo --quiet -o "$$dir/$$demo.xlsx" >/dev/null; done; \
	.ci/formulas-check "$$dir"/*.xlsx

# An owner's evening in two programs; needs LibreOffice Calc and python3-openpyxl.
garage-check:
	.ci/garage-check

# Builds and vets for the other systems, without C.
cross:
	@set -e; dir=$$(mktemp -d); trap 'rm -rf "$$dir"' EXIT; \
	for os in darwin windows; do for arch in amd64 arm64; do \
		echo "$$os/$$arch"; \
		CGO_ENABLED=0 GOOS=$$os GOARCH=$$arch $(GO) build -o "$$dir/" ./cmd/tripwear; \
		CGO_ENABLED=0 GOOS=$$os GOARCH=$$arch $(GO) vet ./...; \
	done; done

# Installs from a clean clone of the last commit: the program knows its commit
# and answers.
install-check:
	@set -e; dir=$$(mktemp -d); trap 'rm -rf "$$dir"' EXIT; \
	git clone -q . "$$dir/clone"; cd "$$dir/clone"; \
	GOBIN="$$dir/bin" $(GO) install -buildvcs=true ./cmd/tripwear; \
	"$$dir/bin/tripwear" --version | grep "commit $$(git rev-parse --short=12 HEAD),"; \
	cd "$$dir"; bin/tripwear new my-car; bin/tripwear check --car my-car; \
	bin/tripwear plan --car my-car --quiet >plan.txt || [ $$? = 1 ]; grep "^A planning estimate" plan.txt

# Sets every manual page; needs groff.
man-check:
	@command -v groff >/dev/null || { echo "man-check: groff is not installed:"; \
		echo "  apt-get install -y --no-install-recommends groff-base"; exit 1; }
	@set -e; dir=$$(mktemp -d); trap 'rm -rf "$$dir"' EXIT; \
	$(GO) run ./cmd/tripwear man "$$dir"; \
	groff -man -Tutf8 -ww -z "$$dir"/*.1 2>"$$dir/said"; \
	! grep . "$$dir/said"

# Makes README's pictures anew; needs LibreOffice Calc, poppler-utils,
# ImageMagick and the DejaVu fonts.
pictures:
	@for tool in soffice pdftoppm pdftotext convert; do command -v $$tool >/dev/null || { \
		echo "pictures: $$tool is not installed; it needs LibreOffice Calc, poppler-utils, ImageMagick and the DejaVu fonts:"; \
		echo "  apt-get install -y --no-install-recommends libreoffice-calc-nogui poppler-utils imagemagick fonts-dejavu-core"; exit 1; }; done
	testdata/pictures/make testdata/pictures

# One reader after the other, each for FUZZTIME.
FUZZTIME = 10m
fuzz:
	@set -e; for target in profiles:FuzzLoad profiles:FuzzApply profiles:FuzzOilReport profiles/quantity:FuzzParse \
		profiles/logbook:FuzzRead profiles/sheet:FuzzRead profiles/trace:FuzzGPX profiles/trace:FuzzKML profiles/trace:FuzzTCX profiles/trace:FuzzGeoJSON \
		profiles/trace:FuzzFIT profiles/trace:FuzzNMEA profiles/trace:FuzzCSV \
		planner/workbook:FuzzReadMeasurements planner/workbook:FuzzFormSheet; do \
		$(GO) test ./$${target%:*} -run '^$$' -fuzz "^$${target#*:}\$$" -fuzztime $(FUZZTIME) -parallel 1 -fuzzminimizetime 0x; \
	done
