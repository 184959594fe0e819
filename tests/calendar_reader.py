#!/usr/bin/env python3
"""A calendar file, read by python3-icalendar (Debian), which knows nothing of roundbook: its form by RFC 5545,
its days and alarms by a site made for this, and whether bringing in a later file moves what an earlier one had.

  calendar_reader.py ROUNDBOOK
Exit 77: python3-icalendar is not here.
"""
import datetime
import os
import pathlib
import subprocess
import sys
import tempfile

try:
    import icalendar
except ImportError:
    sys.path.append("/usr/lib/python3/dist-packages")  # where Debian has it, whatever python3 comes first
    try:
        import icalendar
    except ImportError:
        print("python3-icalendar is not here")
        sys.exit(77)

SITE = [
    "new --site 'Tern, \"Hollow\"; north' --zone America/Los_Angeles --units us",
    "start pile heap-1 volume='1 yd3' --when '2026-10-01 9:00'",
    "log heap-1 core=148F --when '2026-10-17 7:00'",
    "log heap-1 core=171F --when '2026-10-19 7:00'",
    "start brew drum-1 volume=50gal lid=sealed --when '2026-10-10 9:00'",
    "log drum-1 60F stirred vented --when '2026-10-19 7:10'",
    "start nestbox box-1 --when '2026-03-10 9:00'",
]
# Two pairs of bins, fed every second day in turn.
for bins, first in ((("bin-a", "bin-b"), 11), (("bin-c", "bin-d"), 12)):
    for code in bins:
        SITE.append(f"start larvae {code} seeded=3000 age=5d area=4ft2 --when '2026-10-10 9:00'")
        SITE += [f"add {code} 1lb vegetable waste --when '2026-10-{day} 9:10'" for day in range(first, 19, 2)]


class Site:
    def __init__(self, roundbook, folder):
        self.roundbook, self.folder = roundbook, folder

    def run(self, line, now="2026-10-19T08:00:00-07:00"):
        done = subprocess.run(["bash", "-c", f'"{self.roundbook}" {line}'], cwd=self.folder, capture_output=True,
                              env={"PATH": "/usr/bin:/bin", "HOME": str(self.folder), "LC_ALL": "C.UTF-8",
                                   "ROUNDBOOK_BOOK": "site.db", "ROUNDBOOK_NOW": now, "ROUNDBOOK_BACKUPS": "off",
                                   **{k: v for k, v in os.environ.items() if k.startswith(("ASAN_", "LLVM_"))}})
        assert done.returncode == 0, f"{line}: {done.stderr.decode()}"
        return done.stdout

    def calendar(self, words, **more):
        self.run(f"ahead {words} --calendar days.ics", **more)
        return (self.folder / "days.ics").read_bytes()


def events(content):
    return {str(event["UID"]): event for event in icalendar.Calendar.from_ical(content).walk("VEVENT")}


def check_form(content):
    assert content.endswith(b"END:VCALENDAR\r\n")
    assert content.count(b"\n") == content.count(b"\r\n"), "a line ends without CRLF (3.1)"
    for line in content.split(b"\r\n"):
        assert len(line) <= 75, f"a line of more than 75 octets (3.1): {line!r}"
        line.decode("utf-8")  # no character is parted
    calendar = icalendar.Calendar.from_ical(content)
    assert calendar["VERSION"] == "2.0" and calendar["PRODID"]
    uids = [str(event["UID"]) for event in calendar.walk("VEVENT")]
    assert len(uids) == len(set(uids)), "a UID twice (3.8.4.7)"
    for event in calendar.walk("VEVENT"):
        for wanted in ("DTSTAMP", "DTSTART", "SUMMARY"):
            assert wanted in event, f"{wanted} is missing"
    # What a reader takes apart and puts together again says the same.
    assert icalendar.Calendar.from_ical(calendar.to_ical()) == calendar
    return calendar


def main():
    roundbook = pathlib.Path(sys.argv[1]).resolve()
    with tempfile.TemporaryDirectory() as folder:
        site = Site(roundbook, pathlib.Path(folder))
        for line in SITE:
            site.run(line)
        content = site.calendar("7d")
        calendar = check_form(content)
        assert str(calendar["NAME"]) == 'Tern, "Hollow"; north', calendar["NAME"]
        first = events(content)
        now = next(event for uid, event in first.items() if uid.startswith("heap-1.1.pile-hot"))
        # What harms if it waits: at the next quarter of an hour by the site's clock, and it is heard.
        assert now["DTSTART"].params["TZID"] == "America/Los_Angeles"
        begins = now["DTSTART"].dt
        assert begins.replace(tzinfo=None) == datetime.datetime(2026, 10, 19, 8, 15), begins
        assert begins.utcoffset() == datetime.timedelta(hours=-7), begins.utcoffset()
        assert [str(part.name) for part in now.subcomponents] == ["VALARM"]
        zones = calendar.walk("VTIMEZONE")
        assert [str(zone["TZID"]) for zone in zones] == ["America/Los_Angeles"]
        assert zones[0].to_tz().utcoffset(datetime.datetime(2026, 10, 19, 8)) == datetime.timedelta(hours=-7)
        # A drum vented today is due in two days (brew.vent.days), for the whole day, with its caution.
        vent = next(event for uid, event in first.items() if uid.startswith("drum-1.1.brew-vent"))
        assert vent["DTSTART"].dt == datetime.date(2026, 10, 21), vent["DTSTART"].dt
        assert vent["DTEND"].dt == datetime.date(2026, 10, 22)
        assert "pressure" in str(vent["DESCRIPTION"]) and "\n" in str(vent["DESCRIPTION"])
        assert any(str(event["SUMMARY"]).startswith("read heap-1") and event["RRULE"]["COUNT"] == [7]
                   for event in first.values())
        fed = [event for event in first.values() if str(event["SUMMARY"]).startswith("feed ")]
        assert sorted(str(event["SUMMARY"]) for event in fed) == ["feed bin-a, bin-b", "feed bin-c, bin-d"], fed
        assert all(event["RRULE"]["INTERVAL"] == [2] for event in fed)
        # Vented a day later, it is the same entry on another day; what stays has the same name.
        site.run("log drum-1 vented --when '2026-10-20 7:00'", now="2026-10-20T08:00:00-07:00")
        second = events(site.calendar("7d", now="2026-10-20T08:00:00-07:00"))
        assert second[str(vent["UID"])]["DTSTART"].dt == datetime.date(2026, 10, 22)
        assert second[str(vent["UID"])]["SEQUENCE"] > vent["SEQUENCE"]
        assert second[str(vent["UID"])]["DTSTAMP"].dt > vent["DTSTAMP"].dt
        assert {str(now["UID"]), str(vent["UID"])} <= set(second)
        assert {uid for uid in first if uid.startswith("read.")} == {uid for uid in second if uid.startswith("read.")}
        # Without anything that is timed no zone is told; a span of one day, and the output instead of a file.
        assert b"VTIMEZONE" not in site.run("undo") and site.run("ahead tomorrow --calendar -").startswith(b"BEGIN:VCAL")
    print(f"{len(first)} entries read by icalendar")


if __name__ == "__main__":
    main()
