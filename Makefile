# Everything on a fresh machine with Python 3.11 or newer: `make run`, `make test`.
PYTHON ?= python3
BIN := .venv/bin
BIND ?= 127.0.0.1:8000
# A worker a core, each with a database of its own; the tests of a file stay together until a worker runs dry.
PYTEST := $(BIN)/python -m pytest --numprocesses auto --dist worksteal --durations 10
TEMPLATES := $(BIN)/djangofmt --line-length 120 templates
export PUBLIC_URL ?= http://$(BIND)

.PHONY: run test hunt season mutants soak check fix map bench bench-pages load demo pictures update holes

.venv/run: requirements.txt
	@test -x $(BIN)/python || $(PYTHON) -m venv .venv
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -r requirements.txt
	@touch $@

.venv/test: .venv/run tests/requirements.txt
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -r tests/requirements.txt
	@touch $@

run: export LOG_FILE ?= $(or $(DATA_DIR),data)/garage.log
run: .venv/run
	@$(BIN)/python manage.py migrate --verbosity 0
	@$(BIN)/python manage.py collectstatic --no-input --verbosity 0
	@test "$(DEMO)" = no || $(BIN)/python manage.py demo --if-empty
	@$(BIN)/python manage.py plan
	@$(BIN)/python manage.py sign_in_link
	@BIND=$(BIND) $(BIN)/gunicorn garage.wsgi

demo: .venv/run
	@$(BIN)/python manage.py migrate --verbosity 0
	@$(BIN)/python manage.py demo
	@$(BIN)/python manage.py plan

# All of them, or some: make test ARGS="tests/parts -m browser".
test: .venv/test
	$(PYTEST) $(ARGS)

# Properties on random cases, HUNT times as many as in a test; a seed makes it the same hunt again.
HUNT ?= 20
hunt: SEED := $(or $(SEED),$(shell date +%s))
hunt: .venv/test
	@HUNT=$(HUNT) $(PYTEST) tests/property --hypothesis-profile hunt --hypothesis-seed $(SEED); found=$$?; \
	echo "--- the same hunt again: make hunt HUNT=$(HUNT) SEED=$(SEED)"; exit $$found

# A busy made garage lived through for WEEKS, once for each seed. Prints what moved, how many forms it takes until a
# car is fit, and the odds beside what came of them.
WEEKS ?= 6
season: .venv/test
	@SEASON=$(WEEKS) SEED="$(or $(SEED),7)" $(BIN)/python -m pytest tests/season/test_six_weeks.py --quiet

# Small faults on purpose, one at a time, each held against the tests that call the function: prints which slip through.
MUTANTS ?= 200
mutants: .venv/test
	@$(BIN)/python -m tests.mutants --number $(MUTANTS) --seed $(or $(SEED),7) --only "$(ONLY)" $(ARGS)

# The real server on data of its own, eight people writing, killed at random moments: prints whether everything that was
# answered as done is there once, how long locks were held, and the load. With SQLite, or beside DATABASE_URL.
MINUTES ?= 10
KILLS ?= 200
soak: .venv/test
	@$(BIN)/python -m tests.soak --minutes $(MINUTES) --kills $(KILLS) --seed $(or $(SEED),7) $(ARGS)

# Every check runs, then the failures are counted.
check: .venv/test
	@failed=0; \
	try() { echo "--- $$1"; shift; "$$@" || failed=$$((failed + 1)); }; \
	try "format" $(BIN)/ruff format --check .; \
	try "lint" $(BIN)/ruff check .; \
	try "types" $(BIN)/mypy; \
	try "imports" $(BIN)/lint-imports; \
	try "templates" $(TEMPLATES) --check; \
	try "migrations" $(BIN)/python manage.py makemigrations --check --dry-run; \
	try "deployment" env HTTPS=on DEBUG=off $(BIN)/python manage.py check --deploy --fail-level WARNING; \
	echo "--- $$failed of 7 checks failed"; test $$failed -eq 0

fix: .venv/test
	$(BIN)/ruff check --fix .
	$(BIN)/ruff format .
	$(TEMPLATES)

bench: .venv/test
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -r tests/benchmarks/requirements.txt
	$(BIN)/python -m tests.benchmarks
	$(BIN)/python -m tests.benchmarks.odds

# Every page of a garage kept for a year and for five: queries, CPU time, bytes. With SQLite, or where DATABASE_URL says.
bench-pages: .venv/test
	@$(BIN)/python -W ignore -m tests.benchmarks.pages $(ARGS)

# Fifty garages on one server, read and tapped while four of them search: with one, two and four web processes.
# With SQLite, or where DATABASE_URL says (a database of its own beside the one it names; it is used again the next time).
load: .venv/test
	@$(BIN)/python -W ignore -m tests.benchmarks.garages $(ARGS)

# Every pin to the newest version that fits; they stay there if every check and every test passes, and go back else.
update: .venv/test
	@$(BIN)/python -m tests.pins; moved=$$?; if test $$moved -eq 3; then exit 0; fi; test $$moved -eq 0 || exit 1; \
	$(MAKE) check && $(MAKE) test || { $(BIN)/python -m tests.pins --back; $(MAKE) .venv/test; exit 1; }

# Holes that are known in what is installed, as a public list has them; in an environment of its own, for it drags in much.
holes: .venv/test
	@test -x .venv-holes/bin/pip-audit || $(PYTHON) -m venv .venv-holes
	@.venv-holes/bin/python -m pip install --quiet --disable-pip-version-check -r tests/holes.txt
	@$(BIN)/python -c "import sysconfig; print(sysconfig.get_path('purelib'))" > .venv-holes/where
	@rm -f .venv-holes/found.json; \
	.venv-holes/bin/pip-audit --path "$$(cat .venv-holes/where)" --progress-spinner off --format json \
		--output .venv-holes/found.json > .venv-holes/said 2>&1; failed=$$?; \
	test -s .venv-holes/found.json || { echo "The list of known holes could not be read: nothing is known either way."; \
		tail -n 1 .venv-holes/said; exit 2; }; \
	cat .venv-holes/said; exit $$failed

map: .venv/test
	$(BIN)/python -m tests.house.draw_rooms

# Every page of a demo garage, narrow and wide, light and dark, in pictures/; prints how high each is as it opens.
# A car with many jobs: make pictures JOBS=71.
pictures: .venv/test
	@$(BIN)/python -m tests.contact_sheet --jobs $(or $(JOBS),0) --only "$(ONLY)"
