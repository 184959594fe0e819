#!/usr/bin/env python3
"""The Debian package: made, looked at by lintian where that is there, installed and purged where the test
may (it runs as root, and no roundbook is installed already).

  package.py BUILD_FOLDER
Exit 77: dpkg-deb or dpkg-shlibdeps is not here.
"""
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

WANTED = ["usr/bin/roundbook", "usr/share/man/man1/roundbook.1.gz",
          "usr/share/bash-completion/completions/roundbook", "usr/share/zsh/vendor-completions/_roundbook",
          "usr/share/fish/vendor_completions.d/roundbook.fish", "usr/share/doc/roundbook/copyright",
          "usr/share/doc/roundbook/changelog.gz"]


def run(*words, **more):
    done = subprocess.run(words, capture_output=True, text=True, **more)
    if done.returncode != 0:
        sys.exit(f"{' '.join(map(str, words))}: exit {done.returncode}\n{done.stdout}{done.stderr}")
    return done.stdout


def main():
    build = pathlib.Path(sys.argv[1]).resolve()
    if not shutil.which("dpkg-deb") or not shutil.which("dpkg-shlibdeps"):
        print("dpkg-deb or dpkg-shlibdeps is not here")
        sys.exit(77)
    with tempfile.TemporaryDirectory() as folder:
        run("cpack", "--config", build / "CPackConfig.cmake", "-B", folder, cwd=folder)
        package = next(pathlib.Path(folder).glob("*.deb"))
        content = run("dpkg-deb", "--contents", package)
        for path in WANTED:
            assert f"./{path}" in content, f"the package has no {path}:\n{content}"
        depends = run("dpkg-deb", "--field", package, "Depends")
        assert "libc6" in depends and "tzdata" in depends, depends
        if shutil.which("lintian"):
            done = subprocess.run(["lintian", "--allow-root", "--fail-on", "error", package],
                                  capture_output=True, text=True)
            print(done.stdout, end="")
            assert done.returncode == 0, done.stdout + done.stderr
        else:
            print("lintian is not here: not asked")
        if os.geteuid() != 0 or shutil.which("roundbook"):
            print("not installed: that is for root where no roundbook is")
            return
        try:
            run("dpkg", "--install", package)
            run("/usr/bin/roundbook", "--version")
            assert "roundbook" in run("/usr/bin/roundbook", "complete", "bash")
        finally:
            run("dpkg", "--purge", "roundbook")
        left = [path for path in WANTED if os.path.exists("/" + path)]
        assert not left, f"purged, but there is still {left}"
    print("the package is as it should be")


if __name__ == "__main__":
    main()
