#!/usr/bin/env python3
"""What a timer sends of the morning: scripts/morning/mail-morning with a mailer that only keeps what it is given,
and the timer's two files by systemd-analyze where that is here.

  morning_mail.py ROUNDBOOK SCRIPTS_FOLDER
"""
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

STUB = '#!/bin/sh\n{ printf "%s\\n" "$@"; echo --; [ "$(basename "$0")" = notify-send ] || cat; } > "$KEPT"\n'


def main():
    roundbook, scripts = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve() / "morning"
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        bin_folder = folder / "bin"
        bin_folder.mkdir()
        (bin_folder / "roundbook").symlink_to(roundbook)
        for stub in ("mail", "notify-send", "post"):
            (bin_folder / stub).write_text(STUB, encoding="utf-8")
            (bin_folder / stub).chmod(0o755)
        kept = folder / "kept"
        env = {"PATH": f"{bin_folder}:/usr/bin:/bin", "HOME": name, "LC_ALL": "C.UTF-8", "KEPT": str(kept),
               "ROUNDBOOK_BOOK": "site.db", "ROUNDBOOK_NOW": "2026-10-19T08:00:00-07:00", "ROUNDBOOK_BACKUPS": "off",
               **{k: v for k, v in os.environ.items() if k.startswith(("ASAN_", "LLVM_"))}}

        def run(*words, **more):
            return subprocess.run(words, cwd=name, env={**env, **more}, capture_output=True, text=True)

        def sent(*words, **more):
            kept.unlink(missing_ok=True)
            done = run(scripts / "mail-morning", *words, **more)
            assert done.returncode == 0, done.stderr
            return kept.read_text(encoding="utf-8") if kept.exists() else None

        # No logbook: nobody knows whether all is well, and that is said.
        mail = sent("rosa@example.org")
        assert mail and "could not be asked" in mail and "there is no logbook here" in mail, mail
        for line in ("new --site Plot --zone America/Los_Angeles --units us",
                     "start pile heap-1 --when '2026-10-10 9:00'", "log heap-1 core=150F --when '2026-10-19 7:00'"):
            assert run("bash", "-c", f"roundbook {line}").returncode == 0, line
        # Nothing harms if it waits: no mail.
        assert sent("rosa@example.org") is None
        assert run("roundbook", "log", "heap-1", "core=171F").returncode == 0
        mail = sent("rosa@example.org")
        assert mail.startswith("-s\nroundbook: something must be done now\nrosa@example.org\n--\n"), mail
        assert "NOW\n 1 heap-1  turn or open it: core 171 °F" in mail, mail
        assert sent("rosa@example.org", MAILER="post") == mail
        note = sent("--notify")
        assert "--urgency=critical" in note and "heap-1" in note, note
        assert run(scripts / "mail-morning").returncode == 2
        if analyze := shutil.which("systemd-analyze"):
            units = folder / "units"
            shutil.copytree(scripts, units)
            service = units / "roundbook-morning.service"
            text = service.read_text(encoding="utf-8")
            # What it starts is put in place by whoever sets it up.
            service.write_text(text.replace("%h/bin/mail-morning", str(scripts / "mail-morning")), encoding="utf-8")
            done = run(analyze, "verify", "--user", units / "roundbook-morning.timer")
            complaints = [line for line in done.stderr.splitlines() if "roundbook-morning" in line]
            assert not complaints, complaints
    print("mailed what must be done now, and that the logbook could not be asked; else nothing")


if __name__ == "__main__":
    main()
