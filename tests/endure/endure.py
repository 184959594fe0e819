#!/usr/bin/env python3
"""Does to a logbook what the world does, and looks whether the record survives.

  endure.py ROUNDBOOK [--kills N] [--seed N] [--all] [PART ...]

Parts: kill migrate full limit readonly failing clock zone pages hostile crowd. Whatever happens, what was
acknowledged (exit 0) is there afterwards, nothing is there by half, and the logbook checks out. A part that
this machine does not allow is skipped with a word. Of the writes that may fail and the pages that may be
damaged the seed chooses some; --all takes every one.
"""
import argparse
import json
import os
import pathlib
import random
import resource
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
import time

NOW = "2027-05-03T07:15:00-07:00"
FIRST_MINUTE = 1801468800  # 2027-02-01T00:00-08:00, from where on lines are logged, one a minute
HERE = pathlib.Path(__file__).resolve().parent


class Site:
    """A logbook in a folder of its own, and what was acknowledged of it."""

    def __init__(self, roundbook, folder, name="site.db"):
        self.roundbook, self.folder, self.book = roundbook, pathlib.Path(folder), pathlib.Path(folder) / name
        self.acknowledged, self.tried, self.number = set(), set(), 0
        self.imported, self.refused = set(), set()
        self.env = {"PATH": "/usr/bin:/bin", "HOME": str(folder), "TZ": "UTC", "LC_ALL": "C.UTF-8",
                    "ROUNDBOOK_BOOK": str(self.book), "ROUNDBOOK_WHO": "tester", "ROUNDBOOK_NOW": NOW,
                    "ROUNDBOOK_BACKUPS": "off",
                    **{k: v for k, v in os.environ.items() if k.startswith(("ASAN_", "UBSAN_", "LLVM_"))}}

    def run(self, *words, env=None, **more):
        done = subprocess.run([self.roundbook, *words], env={**self.env, **(env or {})}, stdin=subprocess.DEVNULL,
                              stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace",
                              timeout=120, cwd=self.folder, **more)
        if done.returncode not in (0, 1, 2, 10, -signal.SIGKILL) or "Sanitizer" in done.stdout:
            sys.exit(f"FAILED: {words} ended with {done.returncode}: {done.stdout}")
        return done

    def must(self, *words, **more):
        done = self.run(*words, **more)
        if done.returncode != 0:
            sys.exit(f"FAILED: {words}: {done.returncode}: {done.stdout}")
        return done.stdout

    def begin(self):
        self.must("new", "--site", "Tern Hollow", "--zone", "America/Los_Angeles", "--units", "us")
        self.must("start", "pile", "heap-1", "--when", "2027-01-01")
        return self

    def log_words(self):
        """A line of three things, told apart by its number."""
        self.number += 1
        when = f"2027-02-{1 + self.number // 1440 % 28:02}T{self.number // 60 % 24:02}:{self.number % 60:02}:00-08:00"
        note = f"note {self.number} ends"
        self.tried.add(note)
        return note, ["log", "heap-1", f"core={100 + self.number % 50}F", "turned", note, "--when", when]

    def log(self, **more):
        note, words = self.log_words()
        done = self.run(*words, **more)
        (self.acknowledged if done.returncode == 0 else self.refused).add(note)
        return done

    def look(self):
        """Nothing acknowledged is gone, nothing is there by half, and it checks out."""
        checked = self.run("check")
        if checked.returncode != 0:
            sys.exit(f"FAILED: the logbook does not check out: {checked.stdout}")
        database = sqlite3.connect(self.book)
        # The three things of a line have a minute of their own; an amendment takes over their entry.
        there = dict(database.execute("SELECT text, at FROM note"))
        cores = dict(database.execute("SELECT at, count(*) FROM reading JOIN series ON id = series"
                                      " WHERE position = 'core' GROUP BY at"))
        edges = {at for (at,) in database.execute("SELECT at FROM reading JOIN series ON id = series"
                                                  " WHERE position = 'edge'")}
        readings = dict(database.execute("SELECT entry, count(*) FROM reading GROUP BY entry"))
        deeds = dict(database.execute("SELECT at, count(*) FROM deed GROUP BY at"))
        for entry, recorded in database.execute("SELECT entry, recorded FROM import"):
            if readings.get(entry, 0) != recorded:
                sys.exit(f"FAILED: import {entry} is there by half: {readings.get(entry)} of {recorded}")
        database.close()
        lost = (self.acknowledged - set(there)) | (self.imported - edges)
        if lost:
            sys.exit(f"FAILED: acknowledged and gone: {sorted(lost)[:5]}")
        for note, at in there.items():
            if note in self.tried and (cores.get(at), deeds.get(at)) != (1, 1):
                sys.exit(f"FAILED: '{note}' is there by half")


def say(part, text):
    print(f"{part}: {text}", flush=True)


def shed_rows(chance):
    """A logger's file: the moments it has, and its text. The same value at the same minute always."""
    minutes = range(chance.randint(0, 60000), 60300)[:300]
    moments = [FIRST_MINUTE + 30 + 60 * minute for minute in minutes]
    return moments, "time,Core\n" + "".join(f"{at},{50 + at // 60 % 9}\n" for at in moments)


class Amended:
    """The readings of the first entries, which amendments go over: what may stand there now."""

    def __init__(self, site):
        self.site, self.may = site, {}
        for entry in range(3, 21):
            self.amend(entry, 100 + entry)

    def amend(self, entry, value):
        self.site.must("amend", str(entry), f"core={value}F")
        self.may[entry] = {value}

    def look(self):
        """The last acknowledged value stands, or that of an amendment killed since."""
        database = sqlite3.connect(self.site.book)
        values = dict(database.execute("SELECT at, round(value * 1.8 + 32) FROM reading JOIN series ON id = series"
                                       " WHERE position = 'core'"))
        database.close()
        for entry, may in self.may.items():
            stands = values.get(FIRST_MINUTE + 60 * (entry - 1))  # the n-th line is entry n + 1
            if stands not in may:
                sys.exit(f"FAILED: entry {entry} was amended to {sorted(may)}, and {stands} stands")


def part_kill(roundbook, folder, options):
    site = Site(roundbook, folder).begin()
    chance = random.Random(options.seed)
    for _ in range(20):
        site.log()
    amended = Amended(site)
    other = Site(roundbook, folder, "other.db")
    other.number = 20000  # minutes of its own
    counts, finished, killed, longest = {}, {}, 0, {}
    csv = pathlib.Path(folder) / "shed.csv"
    kinds = ["log", "log", "log", "amend", "undo", "backup", "merge", "export", "restore", "import"]
    while killed < options.kills:
        what = chance.choice(kinds)
        copy = pathlib.Path(folder) / f"copy-{killed}-{chance.randint(0, 99999)}.db"
        note, moments, entry, value = None, [], 0, 0
        if what == "log":
            note, words = site.log_words()
        elif what == "amend":
            entry, value = chance.randint(3, 20), 100 + chance.randint(0, 60)
            words = ["amend", str(entry), f"core={value}F"]
        elif what == "undo":
            # What is taken back is an entry made for it.
            site.must("place", f"spot {chance.randint(0, 9999)}")
            words = ["undo"]
        elif what == "backup":
            words = ["backup", str(copy)]
        elif what == "merge":
            site.must("backup", str(fresh(other.book)))
            other.log()
            site.tried |= other.tried
            words = ["merge", str(other.book)]
        elif what == "export":
            words = ["export", str(copy.with_suffix(""))]
        elif what == "restore":
            # From a copy of now, so that nothing acknowledged may be missing after it.
            site.must("backup", str(fresh(pathlib.Path(folder) / "now.db")))
            words = ["restore", "now.db"]
        else:
            moments, text = shed_rows(chance)
            csv.write_text(text)
            words = ["import", "shed.csv", "Core=heap-1.edge:C", "--yes"]
        process = subprocess.Popen([roundbook, *words], env=site.env, cwd=folder, stdin=subprocess.DEVNULL,
                                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        # A command is given so long that it is killed about as often as not.
        patience = longest.get(what, 0.05)
        try:
            code = process.wait(chance.uniform(0, patience))
            longest[what] = patience * 0.9
        except subprocess.TimeoutExpired:
            process.kill()
            code = process.wait()
            longest[what] = patience * 1.1
        if code == 0:
            finished[what] = finished.get(what, 0) + 1
            site.acknowledged |= {note} if note else other.acknowledged if what == "merge" else set()
            site.imported |= set(moments)
            if what == "amend":
                amended.may[entry] = {value}
            if what == "backup":
                backup = Site(roundbook, folder, copy.name)
                backup.acknowledged, backup.tried, backup.imported = site.acknowledged, site.tried, site.imported
                backup.look()
        elif code == -signal.SIGKILL:
            killed += 1
            counts[what] = counts.get(what, 0) + 1
            if what == "amend":
                amended.may[entry].add(value)
            if killed % 10 == 0 or what in ("restore", "merge"):
                site.look()
                amended.look()
        else:
            sys.exit(f"FAILED: {words} ended with {code}")
        other.acknowledged, other.tried = set(), set()
        for left in [*folder.glob("copy-*"), *folder.glob(".copy-*")]:
            # A copy is there whole or not at all, whenever its maker was killed.
            if left.suffix == ".db" and not left.name.startswith("."):
                Site(roundbook, folder, left.name).must("check")
            shutil.rmtree(left, ignore_errors=True) if left.is_dir() else left.unlink(missing_ok=True)
    site.look()
    amended.look()
    say("kill", f"{killed} kills ({', '.join(f'{v} {k}' for k, v in sorted(counts.items()))}) between "
        f"{sum(finished.values())} that ended by themselves; {len(site.acknowledged)} lines, {len(site.imported)} "
        "imported readings and 18 amendments, all acknowledged, are there, none by half")


def old_logbook(path):
    """A logbook of schema 1, with one batch."""
    database = sqlite3.connect(path)
    database.executescript((HERE.parent.parent / "schema" / "001-first.sql").read_text(encoding="utf-8"))
    database.executescript("PRAGMA application_id = 1382302323; PRAGMA user_version = 1; PRAGMA journal_mode = WAL;"
                           "INSERT INTO site VALUES (1, 'u', 'Tern Hollow', 'America/Los_Angeles', 'us', 44.5, 1);"
                           "INSERT INTO entry VALUES (1, '000000000001ab', 1, 'ada', 'start', 'start', NULL);"
                           "INSERT INTO batch VALUES (1, 'b', 'heap-1', 1, 'pile', NULL, 1798790400, 20819, NULL, NULL,"
                           " NULL, 1);")
    database.close()


def part_migrate(roundbook, folder, options):
    """An old logbook, killed while it is brought up to date."""
    old = pathlib.Path(folder) / "old.db"
    old_logbook(old)
    chance = random.Random(options.seed)
    site = Site(roundbook, folder)
    killed, longest, was = 0, 0.05, {1: 0, 2: 0}
    while killed < max(options.kills // 4, 10):
        fresh(site.book)
        shutil.rmtree(pathlib.Path(folder) / "site-backups", ignore_errors=True)
        shutil.copy(old, site.book)
        before = site.book.read_bytes()
        site.must("list")
        if site.book.read_bytes() != before:
            sys.exit("FAILED: a report changed an old logbook")
        begun = time.monotonic()
        process = subprocess.Popen([roundbook, "place", "shed"], env=site.env, cwd=folder, stdin=subprocess.DEVNULL,
                                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        try:
            process.wait(chance.uniform(0, longest))
            longest = (time.monotonic() - begun) * 1.2
            continue
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()
        killed += 1
        database = sqlite3.connect(site.book)
        version = database.execute("PRAGMA user_version").fetchone()[0]
        database.close()
        was[min(version, 2)] += 1
        kept = list((pathlib.Path(folder) / "site-backups").glob("site-schema-1-*.db"))
        if version > 1 and not kept:
            sys.exit("FAILED: it was brought up without a copy before")
        site.must("place", "yard")
        site.must("check")
        if "heap-1" not in site.must("list", "--json"):
            sys.exit("FAILED: the batch of the old logbook is gone")
    say("migrate", f"{killed} kills while schema 1 was brought up: {was[1]} times it was still old, {was[2]} times new; "
        "never between, and with a copy")


def fresh(path):
    for end in ("", "-wal", "-shm"):
        pathlib.Path(str(path) + end).unlink(missing_ok=True)
    return path


def part_full(roundbook, folder, options):
    mount = pathlib.Path(folder) / "small"
    mount.mkdir()
    done = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=900k", "tmpfs", str(mount)], capture_output=True, text=True)
    if done.returncode != 0:
        return say("full", "skipped: no file system may be mounted here")
    try:
        site = Site(roundbook, mount).begin()
        for _ in range(10):
            site.log()
        filler = mount / "filler"
        refused = 0
        for size in (400, 300, 200, 100, 60, 30, 10, 4):
            try:
                with open(filler, "ab") as file:
                    file.write(b"x" * size * 1024)
                    file.flush()
            except OSError:
                pass
            for words in (["backup"], ["export", "out"]):
                if site.run(*words).returncode != 0:
                    refused += 1
                shutil.rmtree(mount / "out", ignore_errors=True)
            for _ in range(5):
                done = site.log()
                if done.returncode == 1:
                    refused += 1
                    if "full" not in done.stdout and "Nothing was recorded" not in done.stdout:
                        sys.exit(f"FAILED: no clear word of the full disk: {done.stdout}")
        filler.unlink()
        shutil.rmtree(mount / "site-backups", ignore_errors=True)
        site.look()
        if site.log().returncode != 0:
            sys.exit("FAILED: it does not work again once there is room")
        if refused == 0:
            sys.exit("FAILED: the disk never filled")
        say("full", f"{refused} commands refused on a full disk, {len(site.acknowledged)} acknowledged entries there")
    finally:
        subprocess.run(["umount", str(mount)], check=False)


def part_limit(roundbook, folder, options):
    site = Site(roundbook, folder).begin()
    for _ in range(10):
        site.log()
    refused = 0
    for size in (4096, 40000, 100000, 150000, 180000, 200000, 250000):
        for words in (None, ["backup", f"b{size}.db"], ["export", f"e{size}"]):
            limit = {"preexec_fn": lambda size=size: resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))}
            done = site.log(**limit) if words is None else site.run(*words, **limit)
            refused += done.returncode == 1
        site.look()
    if refused == 0:
        sys.exit("FAILED: no limit was met")
    if site.log().returncode != 0:
        sys.exit("FAILED: it does not work again without the limit")
    say("limit", f"{refused} commands refused at a file size limit, {len(site.acknowledged)} acknowledged entries there")


def part_readonly(roundbook, folder, options):
    site = Site(roundbook, folder).begin()
    site.log()
    os.chmod(site.book, 0o444)
    os.chmod(folder, 0o555)
    try:
        as_nobody = {}
        if os.getuid() == 0:
            os.chmod(pathlib.Path(folder).parent, 0o755)
            as_nobody = {"user": 65534, "group": 65534, "extra_groups": []}
        shown = [["list"], ["today"], ["show", "heap-1"], ["season", "--all"], ["history"], ["check"],
                 ["material", "straw"], ["rule", "pile.hot"], ["place"], ["container"]]
        for words in shown:
            if site.run(*words, **as_nobody).returncode not in (0, 10):
                sys.exit(f"FAILED: {words} does not read a read-only folder: {site.run(*words, **as_nobody).stdout}")
        refused = [["log", "heap-1", "140F"], ["undo"], ["amend", "2", "150F"], ["check", "--repair"],
                   ["merge", "x.db"], ["backup"]]
        for words in refused:
            done = site.run(*words, **as_nobody)
            if done.returncode != 1:
                sys.exit(f"FAILED: {words} in a read-only folder: {done.returncode} {done.stdout}")
    finally:
        os.chmod(folder, 0o755)
        os.chmod(site.book, 0o600)
    site.look()
    say("readonly", f"{len(shown)} commands read, {len(refused)} refused to write")


def part_failing(roundbook, folder, options):
    if b"__asan_init" in pathlib.Path(roundbook).read_bytes():
        return say("failing", "skipped: nothing is preloaded under the sanitizers")
    shim = pathlib.Path(folder) / "failing_io.so"
    compiler = shutil.which("cc") or shutil.which("gcc")
    if compiler is None or subprocess.run([compiler, "-shared", "-fPIC", "-o", shim, HERE / "failing_io.c", "-ldl"],
                                          capture_output=True).returncode != 0:
        return say("failing", "skipped: no C compiler")
    count = pathlib.Path(folder) / "count"
    total, refused, per_command = 0, 0, {}
    site = Site(roundbook, folder).begin()
    for _ in range(10):
        site.log()
    other = Site(roundbook, folder, "other.db")
    site.must("backup", str(other.book))
    other.number = 5000
    other.log()

    chance = random.Random(options.seed)
    old = pathlib.Path(folder) / "old.db"
    old_logbook(old)

    def works():
        return {
            "log": None,
            "amend": ["amend", "5", f"core={110 + total % 40}F"],
            "undo": ["undo"],
            "import": ["import", "shed.csv", "Core=heap-1.edge:C", "--yes"],
            "backup": ["backup", f"b{total}.db"],
            "export": ["export", f"e{total}"],
            "merge": ["merge", "other.db"],
            "restore": ["restore", "now.db"],
            "check --repair": ["check", "--repair"],
            "new": ["--book", f"n{total}.db", "new", "--site", "Y", "--zone", "America/Los_Angeles"],
            "migrate": ["--book", "brought-up.db", "place", "yard"],
        }

    def prepare(name):
        """Something to do for the command, each time."""
        if name == "merge":
            other.log()
            site.tried |= other.tried
        elif name == "restore":
            site.must("backup", str(fresh(pathlib.Path(folder) / "now.db")))
        elif name == "undo":
            site.must("place", f"spot {total}")
        elif name == "import":
            moments, text = shed_rows(chance)
            (pathlib.Path(folder) / "shed.csv").write_text(text)
            return moments
        elif name == "migrate":
            shutil.rmtree(pathlib.Path(folder) / "brought-up-backups", ignore_errors=True)
            shutil.copy(old, fresh(pathlib.Path(folder) / "brought-up.db"))
        return []

    def run(name, at, with_error, ever_after):
        """Whether the at-th write was reached: then it failed."""
        nonlocal total, refused
        moments = prepare(name)
        env = {"LD_PRELOAD": str(shim), "FAIL_AT": str(at), "FAIL_WITH": with_error, "COUNT_TO": str(count),
               **({"FAIL_ON": "1"} if ever_after else {})}
        words = works()[name]
        done = site.log(env=env) if words is None else site.run(*words, env=env)
        total += 1
        refused += done.returncode == 1
        if done.returncode == 1 and "roundbook:" not in done.stdout:
            sys.exit(f"FAILED: {name} said nothing of its error {at}: {done.stdout}")
        if done.returncode == 0 and name == "merge":
            site.acknowledged |= other.acknowledged
        if done.returncode == 0:
            site.imported |= set(moments)
        site.look()
        for left in folder.glob("[ben][0-9]*"):
            # What has its name is whole.
            if left.suffix == ".db":
                Site(roundbook, folder, left.name).must("check")
            shutil.rmtree(left) if left.is_dir() else fresh(left)
        if name == "migrate":
            Site(roundbook, folder, "brought-up.db").must("place", "shed")
            Site(roundbook, folder, "brought-up.db").must("check")
        calls = int(count.read_text() or 0) if count.exists() else 0
        count.unlink(missing_ok=True)
        return calls

    for name in works():
        writes = per_command[name] = run(name, 0, "", False)
        for with_error, ever_after in (("EIO", False), ("ENOSPC", True)):
            every = range(1, writes + 1)
            for at in every if options.all else sorted(chance.sample(every, min(2, writes))):
                run(name, at, with_error, ever_after)
    site.look()
    if site.log().returncode != 0:
        sys.exit("FAILED: it does not work again without errors")
    database = sqlite3.connect(site.book)
    there = {note for (note,) in database.execute("SELECT text FROM note")}
    database.close()
    if site.refused & there:
        sys.exit(f"FAILED: said to be not recorded, and there: {sorted(site.refused & there)[:5]}")
    say("failing", f"{total} runs of {', '.join(f'{k} ({v} writes)' for k, v in per_command.items())}, each with an "
        f"error at a write; {refused} said so; {len(site.acknowledged)} acknowledged entries there")


def part_clock(roundbook, folder, options):
    site = Site(roundbook, folder).begin()
    site.log()
    for now in ("2027-05-03T07:15:00-07:00", "2027-03-01T00:00:00Z", "2027-05-04T00:00:00Z", "2027-02-10T00:00:00Z"):
        site.env["ROUNDBOOK_NOW"] = now
        site.log()
    site.env["ROUNDBOOK_NOW"] = NOW
    site.look()
    database = sqlite3.connect(site.book)
    order = [uid for (uid,) in database.execute("SELECT uid FROM entry ORDER BY id")]
    if order != sorted(order):
        sys.exit("FAILED: the entries are out of order")
    site.must("undo")
    say("clock", f"{len(order)} entries in order, over three jumps of the clock")


def part_zone(roundbook, folder, options):
    site = Site(roundbook, folder).begin()
    site.log()
    empty = pathlib.Path(folder) / "empty"
    empty.mkdir()
    site.must("backup", "copy.db")
    script = f'mount --bind "{empty}" /usr/share/zoneinfo && exec "$@"'
    if subprocess.run(["unshare", "-m", "sh", "-c", script, "sh", "true"], capture_output=True).returncode != 0:
        return say("zone", "skipped: no folder may be hidden here")
    by_the_clock = {k: v for k, v in site.env.items() if k != "ROUNDBOOK_NOW"}
    for words, env in ((["today"], site.env), (["log", "heap-1", "140F"], by_the_clock), (["check"], by_the_clock),
                       (["restore", "copy.db"], by_the_clock), (["backup"], by_the_clock)):
        done = subprocess.run(["unshare", "-m", "sh", "-c", script, "sh", roundbook, *words], env=env,
                              cwd=folder, capture_output=True, text=True)
        if done.returncode not in (1, 2) or "zone" not in done.stderr:
            sys.exit(f"FAILED: without its zone, {words}: {done.returncode} {done.stdout}{done.stderr}")
    site.look()
    site.must("log", "heap-1", "140F")
    say("zone", "5 commands refused without the zone database, and it works again with it")


def part_pages(roundbook, folder, options):
    site = Site(roundbook, folder).begin()
    for _ in range(60):
        site.log()
    site.must("amend", "5", "core=111F")
    site.must("place", "shed")
    for i in range(12):
        site.must("add", "heap-1", f"{i + 1} lb", "straw", "--when", f"2027-04-{i + 1:02}")
    site.must("undo")
    database = sqlite3.connect(site.book)
    database.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    page = database.execute("PRAGMA page_size").fetchone()[0]
    database.close()
    good = site.book.read_bytes()
    shows = [["list", "--json"], ["show", "heap-1", "--json", "--all"], ["season", "2027", "--json"],
             ["history", "--json", "--all"]]
    truth = [site.must(*words) for words in shows]
    damaged = Site(roundbook, folder, "damaged.db")
    refused = same = caught = 0
    ways = {"inverted": lambda b: bytes(255 - c for c in b), "zeroed": lambda b: bytes(len(b)),
            "moved": lambda b: b[1:] + b[:1]}
    pages = range(len(good) // page)
    if not options.all:
        pages = [0, *sorted(random.Random(options.seed).sample(pages[1:], 12))]
    for number in pages:
        for way, spoil in ways.items():
            at = number * page
            spoilt = good[:at] + spoil(good[at:at + page]) + good[at + page:]
            if spoilt == good:
                continue
            fresh(damaged.book)
            damaged.book.write_bytes(spoilt)
            checked = damaged.run("check")
            caught += checked.returncode != 0
            for words, was in zip(shows, truth):
                done = damaged.run(*words)
                if done.returncode == 0 and done.stdout != was and checked.returncode == 0:
                    sys.exit(f"FAILED: page {number + 1} {way}: {words} shows something else, and check says nothing")
                if done.returncode == 0 and done.stdout != was:
                    say("pages", f"page {number + 1} {way}: {words[0]} shows something else; check tells: "
                        + checked.stdout.split(chr(10))[0][:100])
                refused += done.returncode != 0
                same += done.returncode == 0 and done.stdout == was
            log = damaged.run("log", "heap-1", "130F")
            if log.returncode == 0 and checked.returncode == 0:
                damaged.must("check")
    say("pages", f"{len(pages)} of {len(good) // page} pages, {len(ways)} ways: {refused} times refused, {same} times the same, "
        f"{caught} caught by check")


def part_hostile(roundbook, folder, options):
    site = Site(roundbook, folder).begin()
    bad = "red \x1b[31m\x07 \x9b2J \x1b]0;title\x07 end"
    good = site.book.read_bytes()
    database = sqlite3.connect(site.book)
    triggers = database.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").fetchall()
    database.execute("INSERT INTO note (uid, batch, at, day, text, entry)"
                     " SELECT 'u1', id, started_at, started_day, ?, entry FROM batch", (bad,))
    database.execute("UPDATE site SET name = 'Tern ' || char(27) || '[2J Hollow'")
    database.commit()
    for words in (["show", "heap-1"], ["today"], ["list"], ["history"], ["season"], ["show", "heap-1", "--json"]):
        done = site.run(*words)
        if any(ord(c) < 32 and c != "\n" or 127 <= ord(c) < 160 for c in done.stdout):
            sys.exit(f"FAILED: {words} prints a control character: {done.stdout!r}")
    # A row put in behind the program's back is told of; then it goes again.
    if site.run("check").returncode == 0:
        sys.exit("FAILED: check does not tell of a row that no entry wrote")
    database.close()
    site.book.write_bytes(good)
    database = sqlite3.connect(site.book)
    for sql in ("CREATE TRIGGER evil AFTER INSERT ON reading BEGIN DELETE FROM note; END",
                "CREATE TRIGGER evil AFTER INSERT ON entry BEGIN UPDATE reading SET value = 0; END",
                "CREATE VIEW evil AS SELECT load_extension('x')"):
        database.execute(sql)
        database.commit()
        for words in (["log", "heap-1", "140F"], ["today"], ["merge", "site.db"], ["backup"]):
            done = site.run(*words)
            if done.returncode != 1:
                sys.exit(f"FAILED: a stranger's {sql[7:14]} and {words}: {done.returncode} {done.stdout}")
        database.execute("DROP " + sql.split()[1] + " evil")
        database.commit()
    names = ["'; DROP TABLE reading; --", "<b>x</b>", "../../x", "=cmd|' /C calc'!A0", "%s%n", "a" * 8192]
    for name in names:
        site.run("place", name)
        site.run("start", "pile", name)
        site.run("log", "heap-1", name + " .")
    site.look()
    victim = pathlib.Path(folder) / "victim"
    victim.write_text("untouched")
    for target in ("link.db", "link"):
        (pathlib.Path(folder) / target).symlink_to(victim)
        site.run("backup", target)
        site.run("export", target)
    if victim.read_text() != "untouched":
        sys.exit("FAILED: a link was followed")
    site.must("export", "out")
    cells = (pathlib.Path(folder) / "out" / "note.csv").read_text()
    if ",=cmd" in cells or ',"=cmd' in cells:
        sys.exit("FAILED: a formula stands in the export")
    package = pathlib.Path(folder) / "out" / "datapackage.json"
    described = json.loads(package.read_text())
    for resource_ in described["resources"]:
        resource_["path"] = "../../../etc/passwd"
    package.write_text(json.dumps(described))
    again = Site(roundbook, folder, "again.db")
    again.must("import", "out")
    if oct(again.book.stat().st_mode & 0o777) != "0o600":
        sys.exit("FAILED: a new logbook can be read by others")
    say("hostile", f"{len(names)} names, 3 strangers' triggers and views, links, formulas and paths are inert")


def part_crowd(roundbook, folder, options):
    site = Site(roundbook, folder).begin()
    writers = 6
    script = ('import subprocess, sys\nfor i in range(25):\n'
              '    subprocess.run([sys.argv[1], "log", "heap-1", f"note {sys.argv[2]}.{i} ends",'
              ' "--when", "2027-03-01"], check=True, stdout=subprocess.DEVNULL)\n')
    crowd = [subprocess.Popen([sys.executable, "-c", script, roundbook, str(n)], env=site.env) for n in range(writers)]
    reads = 0
    while any(one.poll() is None for one in crowd):
        site.must("show", "heap-1")
        reads += 1
    if any(one.returncode != 0 for one in crowd):
        sys.exit("FAILED: a writer did not get its turn")
    database = sqlite3.connect(site.book)
    notes = database.execute("SELECT count(*) FROM note").fetchone()[0]
    if notes != writers * 25:
        sys.exit(f"FAILED: {notes} notes of {writers * 25}")
    database.close()
    site.look()
    say("crowd", f"{writers} writers at once, {notes} entries all there, {reads} reads between them")


def main():
    parts = {name[5:]: function for name, function in globals().items() if name.startswith("part_")}
    parser = argparse.ArgumentParser()
    parser.add_argument("roundbook")
    parser.add_argument("--kills", type=int, default=40)
    parser.add_argument("--seed", type=int, default=20270503)
    parser.add_argument("--all", action="store_true")
    parser.add_argument("parts", nargs="*", default=[])
    options = parser.parse_intermixed_args()
    roundbook = str(pathlib.Path(options.roundbook).resolve())
    for name in options.parts or parts:
        with tempfile.TemporaryDirectory() as folder:
            work = pathlib.Path(folder) / "work"
            work.mkdir()
            parts[name](roundbook, work, options)


if __name__ == "__main__":
    main()
