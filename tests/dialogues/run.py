#!/usr/bin/env python3
"""Runs a dialogue: whole command lines and their exact output.

  run.py ROUNDBOOK FILE...            compares
  UPDATE=1 run.py ROUNDBOOK FILE...   writes what was printed into the files; review the diff like code

A dialogue is a text file. "$ command" is run by bash in a fresh folder that lasts for the file; what
follows up to the next "$", "#" or "@" line is everything it must print (both streams, in order) and,
where it is not 0, "[exit N]". "# ..." is a remark. "@ now MOMENT" sets the clock. `unprivileged CMD` runs
a command as nobody where the test itself runs as root, for whom permissions do not count.
"""
import difflib
import os
import pathlib
import subprocess
import sys
import tempfile

UNPRIVILEGED = """unprivileged() {
  if [ "$(id -u)" = 0 ]; then chmod o+rwx . && LLVM_PROFILE_FILE=/dev/null setpriv --reuid=65534 --regid=65534 --clear-groups "$@"; else "$@"; fi
}
"""


def environment(roundbook, folder):
    """Nothing of the person who runs the tests: home, zone, locale, colours."""
    return {
        "PATH": f"{folder}/bin:/usr/bin:/bin", "HOME": folder, "TZ": "UTC", "LC_ALL": "C.UTF-8",
        "ROUNDBOOK_BOOK": "site.db", "ROUNDBOOK_WHO": "tester", "ROUNDBOOK_NOW": "2027-05-03T07:15:00-07:00",
        **{k: v for k, v in os.environ.items() if k.startswith(("ASAN_", "UBSAN_", "LLVM_"))},
    }


def spoken(roundbook, path):
    """The dialogue as it is spoken now."""
    out = []
    with tempfile.TemporaryDirectory() as folder:
        os.chmod(folder, 0o755)
        os.mkdir(f"{folder}/bin")
        os.symlink(roundbook, f"{folder}/bin/roundbook")
        work = f"{folder}/work"
        os.mkdir(work)
        env = environment(roundbook, folder)
        env["TESTS"] = str(pathlib.Path(path).resolve().parent.parent)
        for line in path.read_text(encoding="utf-8").splitlines():
            if line.startswith("@ now "):
                env["ROUNDBOOK_NOW"] = line[6:].strip()
                out.append(line)
            elif line.startswith("#"):
                out.append(line)
            elif line.startswith("$ "):
                out.append(line)
                done = subprocess.run(["bash", "-c", UNPRIVILEGED + line[2:]], cwd=work, env=env,
                                      stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                                      stderr=subprocess.STDOUT, timeout=300)
                printed = done.stdout.decode("utf-8", "backslashreplace").replace(folder, "~")
                # What the coverage runtime says when it cannot add to its file is not the program's.
                out += [line for line in printed.splitlines() if not line.startswith("LLVM Profile ")]
                if done.returncode != 0:
                    out.append(f"[exit {done.returncode}]")
    return "\n".join(out) + "\n"


def main():
    roundbook = str(pathlib.Path(sys.argv[1]).resolve())
    failed = False
    for name in sys.argv[2:]:
        path = pathlib.Path(name)
        is_now = spoken(roundbook, path)
        was = path.read_text(encoding="utf-8")
        if is_now == was:
            continue
        if os.environ.get("UPDATE"):
            path.write_text(is_now, encoding="utf-8")
            continue
        failed = True
        sys.stdout.writelines(difflib.unified_diff(was.splitlines(True), is_now.splitlines(True),
                                                   f"{path.name}: expected", f"{path.name}: printed"))
    sys.exit(1 if failed else 0)


if __name__ == "__main__":
    main()
