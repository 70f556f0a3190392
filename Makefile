# Ninemetre: one Makefile for everything. `make help` lists the targets.
# CC, CFLAGS, CPPFLAGS, LDFLAGS, LDLIBS, PREFIX and DESTDIR are yours; what the
# program itself needs is added to them.

VERSION = 1.0
BUILD   = build
PREFIX  = /usr/local
CFLAGS  = -O2 -g

BINDIR = $(PREFIX)/bin
DOCDIR = $(PREFIX)/share/doc/ninemetre

GEN = $(BUILD)/gen

# --- packages of Debian 12 ---------------------------------------------------
BUILD_PACKAGES = gcc libc6-dev gettext re2c lemon libhpdf-dev libutf8proc-dev libjansson-dev \
	libfontconfig-dev libmd-dev nettle-dev libsqlite3-dev libgsl-dev fonts-liberation fonts-dejavu-core
TEST_PACKAGES  = $(BUILD_PACKAGES) clang libclang-rt-14-dev libcmocka-dev bats qpdf \
	poppler-utils mupdf-tools fontconfig patch python3-jsonschema jq sqlite3 git
# npm may have come from elsewhere.
WORLD_PACKAGES = $(TEST_PACKAGES) vim emacs-nox debootstrap postgresql r-base-core \
	fonts-wqy-microhei slurmctld slurmd slurm-client munge parallel openssh-server rsync iproute2 \
	$(if $(shell command -v npm),,npm)
BENCH_PACKAGES = $(BUILD_PACKAGES) hyperfine mawk time sqlite3

# A goal that promises to run on a bare machine installs before anything is
# compiled; plain `make` never installs.
NEED =
ifneq ($(filter demo,$(MAKECMDGOALS)),)
NEED += $(BUILD_PACKAGES) poppler-utils
endif
ifneq ($(filter test asan fuzz accept pictures,$(MAKECMDGOALS)),)
NEED += $(TEST_PACKAGES)
endif
ifneq ($(filter test-world,$(MAKECMDGOALS)),)
NEED += $(WORLD_PACKAGES)
endif
ifneq ($(filter bench,$(MAKECMDGOALS)),)
NEED += $(BENCH_PACKAGES)
endif
PACKAGES = $(if $(strip $(NEED)),packages)

# --- flags -------------------------------------------------------------------
WARN = -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wundef -Wwrite-strings \
	-Wstrict-prototypes -Wmissing-prototypes -Wdouble-promotion -Wvla $(WERROR)
# What the generators write warns under these, and is not ours to change.
WARN_GEN = -Wno-unused-parameter -Wno-unused-variable -Wno-missing-prototypes \
	-Wno-conversion -Wno-sign-conversion
# Asserts stay on but for the parser's inner loop; `make asan` has them there too.
NDEBUG_GEN = -DNDEBUG
# Set by `make asan` and the fuzz build.
SANITIZE =

OUR_CPPFLAGS = -D_POSIX_C_SOURCE=200809L -DNINEMETRE_VERSION='"$(VERSION)"' \
	-Iinclude -Igrammar -I$(GEN) -Isrc/base -Isrc
OUR_CFLAGS = -std=c11 -pthread $(WARN) $(SANITIZE)
OUR_LDLIBS = -lhpdf -lutf8proc -ljansson -lfontconfig -lmd -lnettle -lsqlite3 -lgsl -lgslcblas -lm
# The program is optimised as a whole where gcc can (it reads 5 to 10 % faster); the
# tests are linked from the same objects without that, which is quicker to build.
WHOLE   = $(if $(SANITIZE),,$(if $(findstring Free Software,$(shell $(CC) --version)),-flto=auto))
PARTS   = $(if $(WHOLE),-fno-lto)
COMPILE = $(CC) $(OUR_CPPFLAGS) $(CPPFLAGS) $(OUR_CFLAGS) $(CFLAGS)
LINK    = $(CC) $(OUR_CFLAGS) $(CFLAGS) $(LDFLAGS)

# What is done is said in two words; V=1 shows the commands themselves.
Q = $(if $(V),,@)
SAY = @$(if $(V),:,printf '%-7s %s\n')

# --- files -------------------------------------------------------------------
SRC = $(filter-out src/token/mkhash.c,$(sort $(wildcard src/*/*.c)))
OBJ = $(SRC:src/%.c=$(BUILD)/obj/%.o) $(BUILD)/obj/gen/tokens.o $(BUILD)/obj/gen/notation.o
# Everything but main(): what the tests are linked with.
ROOM_OBJ = $(filter-out $(BUILD)/obj/cmd/main.o,$(OBJ))
GEN_HEADERS = $(GEN)/notation.h $(GEN)/word_hash.h $(GEN)/serve_drills.h

# What several tests share.
KIT      = $(patsubst tests/%.c,$(BUILD)/tests/%.o,$(sort $(wildcard tests/kit/*.c)))
UNIT     = $(patsubst tests/%.c,$(BUILD)/tests/%,$(sort $(wildcard tests/unit/test_*.c)))
PROPERTY = $(patsubst tests/%.c,$(BUILD)/tests/%,$(sort $(wildcard tests/property/*.c)))
TOOLS    = $(patsubst tests/%.c,$(BUILD)/tests/%,$(sort $(wildcard tests/tools/*.c tests/bench/*.c)))
# Libraries that stand before the program under test.
PRELOAD  = $(patsubst tests/%.c,$(BUILD)/tests/%.so,$(sort $(wildcard tests/preload/*.c)))
TESTING  = $(BUILD)/9m $(UNIT) $(PROPERTY) $(TOOLS) $(PRELOAD)

.DELETE_ON_ERROR:
.SUFFIXES:
.SECONDARY:
.PHONY: all words help packages compile-all demo test test-world asan fuzz bench layers headers accept pictures \
	install uninstall clean

all: $(BUILD)/9m

help:
	@echo 'all         build/9m, the program (default)'
	@echo 'demo        install what is missing, build, check the example season, write a report'
	@echo 'test        install what is missing, run every test'
	@echo 'test-world  the heavy tests: fresh machine, editors, R, PostgreSQL, Slurm, ssh'
	@echo 'asan        the tests on a build with address and undefined-behaviour checks'
	@echo 'fuzz        random input, FUZZ_SECONDS=60'
	@echo 'bench       speed and memory against wc, mawk and sqlite3'
	@echo 'layers      the one-way doors between rooms'
	@echo 'headers     every header compiles alone'
	@echo 'accept      take the present output as expected output of tests/cases and tests/pages'
	@echo 'words       collects the words of the reports into the catalogues of src/lang'
	@echo 'pictures    the pictures of the documents, from real output'
	@echo 'install     to PREFIX=$(PREFIX), DESTDIR honoured; uninstall'
	@echo 'clean       removes $(BUILD)/'

# --- the program -------------------------------------------------------------
$(BUILD)/9m: $(OBJ)
	$(SAY) LINK $@
	$(Q)$(LINK) $(WHOLE) -o $@ $(OBJ) $(OUR_LDLIBS) $(LDLIBS)

$(BUILD)/obj/%.o: src/%.c $(GEN_HEADERS) Makefile | $(PACKAGES)
	@mkdir -p $(@D)
	$(SAY) CC $<
	$(Q)$(COMPILE) $(WHOLE:%=% -ffat-lto-objects) -MMD -MP -c -o $@ $<

$(BUILD)/obj/gen/%.o: $(GEN)/%.c $(GEN_HEADERS) Makefile | $(PACKAGES)
	@mkdir -p $(@D)
	$(SAY) CC $<
	$(Q)$(COMPILE) $(WARN_GEN) $(NDEBUG_GEN) $(WHOLE:%=% -ffat-lto-objects) -MMD -MP -c -o $@ $<

$(GEN)/tokens.c: grammar/tokens.re Makefile | $(PACKAGES)
	@mkdir -p $(@D)
	$(SAY) RE2C $<
	$(Q)re2c -W -Werror -8 -b -c --input-encoding utf8 --encoding-policy fail \
	  --no-generation-date --no-debug-info --depfile $@.d -o $@ $<

# Lemon leaves an unchanged header's time alone, hence the touch.
$(GEN)/notation.c $(GEN)/notation.h &: grammar/notation.y Makefile | $(PACKAGES)
	@mkdir -p $(@D)
	$(SAY) LEMON $<
	$(Q)lemon -q -l -d$(@D) $< && touch $(GEN)/notation.c $(GEN)/notation.h

# The hash of the words is searched for once, while building.
$(BUILD)/mkhash: src/token/mkhash.c $(GEN)/notation.h Makefile | $(PACKAGES)
	$(SAY) CC $<
	$(Q)$(CC) $(OUR_CPPFLAGS) -std=c11 $(WARN) -O1 -MMD -MP -o $@ $<

$(GEN)/word_hash.h: $(BUILD)/mkhash
	$(SAY) HASH $@
	$(Q)$(BUILD)/mkhash > $@

# The drills as they stand, byte by byte.
$(GEN)/serve_drills.h: grammar/serve.drills Makefile
	@mkdir -p $(@D)
	$(SAY) BYTES $<
	$(Q)od -An -v -tx1 $< | sed 's/ \(..\)/0x\1,/g' > $@

# The languages of the reports: each catalogue as bytes.
$(GEN)/catalogues.h: $(sort $(wildcard src/lang/*.po)) Makefile | $(PACKAGES)
	@mkdir -p $(@D)
	$(SAY) MSGFMT $@
	$(Q)for po in $(filter %.po,$^); do \
	  code=$$(basename $$po .po) && echo "static const unsigned char $${code}_mo[] = {" && \
	  msgfmt --check-format --check-domain --no-hash --endianness=little -o - $$po | \
	  od -An -v -tx1 | sed 's/ \(..\)/0x\1,/g' && echo '};' || exit 1; done > $@

$(BUILD)/obj/lang/lang.o: $(GEN)/catalogues.h

# The words of the pages, collected from the source and from the tables and the
# drills that they show, and carried into each catalogue.
words:
	@mkdir -p $(BUILD)
	awk -f src/lang/drills.awk grammar/serve.drills > $(BUILD)/drill_words.c
	xgettext --language=C --from-code=UTF-8 --keyword=WORDS --keyword=MARK:3 --keyword=page_say:2 --keyword=page_sayf:2 \
	  --keyword=page_say_n:3,4 --flag=page_say:2:no-c-format --flag=page_sayf:2:c-format --flag=page_say_n:3:c-format \
	  --add-comments=TRANSLATORS --sort-by-file --no-wrap --add-location=file \
	  --package-name=ninemetre -o - $(sort $(wildcard src/page/*.c)) grammar/marks.def $(BUILD)/drill_words.c | \
	  sed '/^"POT-Creation-Date/d; /^#, fuzzy$$/d; s/CHARSET/UTF-8/' > src/lang/report.pot
	for po in src/lang/*.po; do \
	  msgmerge --quiet --no-fuzzy-matching --no-wrap --add-location=file --update --backup=none $$po src/lang/report.pot; \
	  msgattrib --no-obsolete --no-wrap -o $$po $$po; done

# --- tests -------------------------------------------------------------------
$(BUILD)/tests/kit/%.o: tests/kit/%.c $(GEN_HEADERS) Makefile | $(PACKAGES)
	@mkdir -p $(@D)
	$(SAY) CC $<
	$(Q)$(COMPILE) -Itests -MMD -MP -c -o $@ $<

$(BUILD)/tests/%: tests/%.c $(KIT) $(ROOM_OBJ) Makefile
	@mkdir -p $(@D)
	$(SAY) CC $<
	$(Q)$(COMPILE) $(PARTS) -Itests -MMD -MP -o $@ $< $(KIT) $(ROOM_OBJ) $(LDFLAGS) -lcmocka $(OUR_LDLIBS) $(LDLIBS)

$(BUILD)/tests/preload/%.so: tests/preload/%.c Makefile
	@mkdir -p $(@D)
	$(SAY) CC $<
	$(Q)$(CC) -std=c11 -D_GNU_SOURCE $(WARN) -O1 -g -shared -fPIC -o $@ $<

# The program and every test, without running any.
compile-all: $(TESTING)

test: $(TESTING) | $(PACKAGES)
	@BUILD=$(BUILD) CC='$(CC)' tests/run $(SUITES)

test-world: $(BUILD)/9m $(BUILD)/tests/tools/studies $(BUILD)/tests/bench/lifelike | $(PACKAGES)
	@BUILD=$(BUILD) tests/run world

# The same tests, on objects of their own.
asan: | $(PACKAGES)
	LSAN_OPTIONS=suppressions=$(CURDIR)/tests/lsan.supp:print_suppressions=0 \
	  $(MAKE) test BUILD=$(BUILD)/asan CFLAGS='-O1 -g' NDEBUG_GEN= \
	  SUITES='unit cases cli property' \
	  SANITIZE='-fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer'

FUZZ_SECONDS = 60
fuzz: $(BUILD)/9m | $(PACKAGES)
	tests/fuzz/run $(FUZZ_SECONDS)

bench: $(BUILD)/9m $(TOOLS) | $(PACKAGES)
	tests/bench/run
	tests/bench/scale

layers:
	@BUILD=$(BUILD) tests/run layers

headers: $(GEN_HEADERS)
	@BUILD=$(BUILD) tests/run headers

accept: $(BUILD)/9m | $(PACKAGES)
	@BUILD=$(BUILD) tests/cases/run --accept
	@BUILD=$(BUILD) tests/pages/run --accept
	@tests/docs/words --accept
	@tests/docs/columns --accept
	@tests/docs/profiles --accept

-include $(OBJ:.o=.d) $(KIT:.o=.d) $(UNIT:=.d) $(PROPERTY:=.d) $(TOOLS:=.d) $(GEN)/tokens.c.d $(BUILD)/mkhash.d

# --- packages ----------------------------------------------------------------
# Quick when nothing is missing; the package lists are fetched only when
# something is.
packages:
	@command -v dpkg-query >/dev/null || { \
	  echo 'not a Debian system; these packages (Debian 12 names) are taken as present:'; \
	  echo '  $(sort $(NEED))'; exit 0; }; \
	missing=; for p in $(sort $(NEED)); do \
	  case "$$(dpkg-query -W -f '$${db:Status-Status}' $$p 2>/dev/null)" in \
	    installed) ;; *) missing="$$missing $$p";; esac; done; \
	[ -z "$$missing" ] && exit 0; \
	echo "installing:$$missing"; \
	if [ "$$(id -u)" = 0 ]; then as=; else as=sudo; fi; \
	$$as apt-get -q -o DPkg::Lock::Timeout=300 update && \
	$$as env DEBIAN_FRONTEND=noninteractive apt-get -q -y -o DPkg::Lock::Timeout=300 \
	  install --no-install-recommends $$missing

# --- using and installing it -------------------------------------------------
DEMO_MATCH = examples/season/2026-10-03-foxes.9m

demo: $(BUILD)/9m | $(PACKAGES)
	$(BUILD)/9m check examples/season
	@mkdir -p $(BUILD)/demo
	$(BUILD)/9m report $(DEMO_MATCH) -o $(BUILD)/demo/report.pdf
	@echo 'the report of $(DEMO_MATCH) lies in $(BUILD)/demo/report.pdf'

# The pictures of README.md and of the reference, from the example season.
pictures: $(BUILD)/9m | $(PACKAGES)
	@mkdir -p $(BUILD)/demo examples/pictures
	$(BUILD)/9m report $(DEMO_MATCH) -o $(BUILD)/demo/pictures.pdf
	pdftoppm -r 90 -x 48 -y 70 -W 660 -H 910 -png $(BUILD)/demo/pictures.pdf examples/pictures/report-page
	$(BUILD)/9m card --season examples/season -o $(BUILD)/demo examples/season/2026-10-17-swifts.9m 7
	$(BUILD)/9m season -o $(BUILD)/demo/season.pdf examples/season
	$(BUILD)/9m scout foxes -o $(BUILD)/demo/scout.pdf examples/season
	$(BUILD)/9m sheet --practice examples/season -o $(BUILD)/demo/plan.pdf
	$(BUILD)/9m sheet --bench examples/season -o $(BUILD)/demo/bench.pdf
	$(BUILD)/9m sheet -o $(BUILD)/demo/notation.pdf
	$(BUILD)/9m sheet --form -o $(BUILD)/demo/form.pdf
	$(BUILD)/9m report -o $(BUILD)/demo/practice.pdf examples/season/2026-10-13-practice.9m
	mv $(BUILD)/demo/2026-10-17-swifts-7.pdf $(BUILD)/demo/card.pdf
	for page in card season scout plan bench notation form practice; do \
	  pdftoppm -r 90 -x 48 -y 70 -W 660 -H 910 -png -l 1 -singlefile $(BUILD)/demo/$$page.pdf examples/pictures/$$page; done

install: $(BUILD)/9m
	install -d '$(DESTDIR)$(BINDIR)' '$(DESTDIR)$(DOCDIR)'
	install -m 755 $(BUILD)/9m '$(DESTDIR)$(BINDIR)/9m'
	install -m 644 README.md grammar/NOTATION.md grammar/ARCHIVE.md grammar/serve.drills grammar/export.* LICENSE '$(DESTDIR)$(DOCDIR)'

uninstall:
	rm -f '$(DESTDIR)$(BINDIR)/9m'
	rm -rf '$(DESTDIR)$(DOCDIR)'

clean:
	rm -rf $(BUILD)
