#!/usr/bin/env python3
"""What `cmake --install` and `cpack` make, where it lands, and that it can be taken away again.

    package.py --build BUILD --tree TREE

Exit status 0: all is so; 1: what is not is printed, a line each; 2: a wrong call.
"""

import argparse
import gzip
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

DOC = "share/doc/waxwright"
INSTALLED = ["bin/waxwright", "share/man/man1/waxwright.1.gz", f"{DOC}/LICENSE",
             f"{DOC}/copyright", f"{DOC}/README.md", f"{DOC}/changelog.gz",
             "share/bash-completion/completions/waxwright",
             "share/fish/vendor_completions.d/waxwright.fish"]
FIELDS = {"Package": "waxwright", "Maintainer": "Waxwright maintainers <waxwright@example.invalid>",
          "Section": "utils", "Priority": "optional"}


class Install:
    """The build installed under a folder; the build's own list of what it installed is kept."""

    def __init__(self, build, folder):
        self.build, self.folder, self.faults = build, folder, []
        self.manifest = build / "install_manifest.txt"
        self.kept = self.manifest.read_bytes() if self.manifest.exists() else None

    def run(self, *words, env=None, **options):
        done = subprocess.run([str(word) for word in words], capture_output=True, text=True,
                              env={**os.environ, "LC_ALL": "C.UTF-8", **(env or {})}, check=False,
                              timeout=300, **options)
        return done

    def true(self, what, holds):
        if not holds:
            self.faults.append(what)

    def restore(self):
        if self.kept is not None:
            self.manifest.write_bytes(self.kept)


def paths(folder):
    return {p.relative_to(folder).as_posix() for p in folder.rglob("*")}


def try_install(t, tree, prefix, destination=""):
    """`prefix` as the build is told, `destination` what DESTDIR puts before it."""
    env = {"DESTDIR": destination} if destination else {}
    there = Path(destination + str(prefix)) if destination else prefix
    done = t.run("cmake", "--install", t.build, "--prefix", prefix, env=env)
    t.true(f"cmake --install: {done.stderr}", done.returncode == 0)
    zsh = "vendor-completions" if str(prefix).endswith("/usr") else "site-functions"
    for name in [*INSTALLED, f"share/zsh/{zsh}/_waxwright"]:
        t.true(f"{prefix}: there is no {name}", (there / name).is_file())
    for folder in ("docs", "examples"):
        wanted = {p for p in paths(tree / folder) if not p.startswith(".")}
        t.true(f"{folder} are not all there", wanted == paths(there / DOC / folder))
    return there


def try_use(t, there):
    """What was installed works from where it is."""
    program = there / "bin/waxwright"
    version = t.run(program, "--version").stdout
    t.true(f"its version: {version}", re.fullmatch(r"waxwright \d+\.\d+\.\d+\n", version))
    done = t.run(program, "check", there / DOC / "examples")
    t.true(f"the examples: {done.stdout}{done.stderr}", done.returncode == 0)
    page = there / "share/man/man1/waxwright.1.gz"
    roff = gzip.decompress(page.read_bytes()).decode()
    t.true("the manual page", roff.startswith(".TH WAXWRIGHT 1 \"20"))
    found = t.run("man", "-M", there / "share/man", "-w", "waxwright").stdout.strip()
    t.true(f"man finds it at {found}", found == str(page))
    env = {"XDG_DATA_DIRS": str(there / "share"), "PATH": f"{there / 'bin'}:{os.environ['PATH']}",
           "HOME": str(t.folder)}
    loaded = t.run("bash", "--norc", "-c", "source /usr/share/bash-completion/bash_completion; "
                   "_completion_loader waxwright; complete -p waxwright", env=env)
    t.true(f"bash loads it by itself: {loaded.stdout}{loaded.stderr}",
           loaded.stdout == "complete -F _waxwright waxwright\n")
    fish = t.run("fish", "-c", "complete -C 'waxwright che'", env=env)
    t.true(f"fish loads it by itself: {fish.stdout}", fish.stdout.startswith("check\t"))
    zsh = t.run("zsh", "-f", "-c", f"fpath=('{there}'/share/zsh/*(/) $fpath); autoload -Uz compinit; "
                f"compinit -u -d {t.folder}/dump; print $_comps[waxwright]", env=env)
    t.true(f"zsh loads it by itself: {zsh.stdout}{zsh.stderr}", zsh.stdout == "_waxwright\n")


def try_uninstall(t, there, before, env=None):
    done = t.run("cmake", "--build", t.build, "--target", "uninstall", env=env)
    t.true(f"uninstall: {done.stdout}", done.returncode == 0)
    left = paths(there) ^ before
    t.true(f"what is otherwise than before: {sorted(left)[:5]}", not left)
    again = t.run("cmake", "--build", t.build, "--target", "uninstall", env=env)
    t.true("a second uninstall says nothing", again.returncode != 0
           and "nothing was installed from here" in again.stdout + again.stderr)


def try_prefixes(t, tree):
    plain = t.folder / "plain place"
    (plain / "share/mine/empty").mkdir(parents=True)  # what was there stays, empty or not
    before = paths(plain)
    try_use(t, try_install(t, tree, plain))
    try_uninstall(t, plain, before)
    staged = t.folder / "staged"
    there = try_install(t, tree, Path("/usr"), str(staged))
    t.true("DESTDIR is taken", (staged / "usr/bin/waxwright").exists())
    try_uninstall(t, there, {"bin", "share", "share/man"}, {"DESTDIR": str(staged)})


def try_package(t, shared):
    """The package: its fields, what is in it, and what lintian says."""
    made = t.folder / "package"
    done = t.run("cpack", "-G", "DEB", "-B", made, cwd=t.build)
    packages = list(made.glob("*.deb"))
    if len(packages) != 1:
        t.true(f"cpack: {done.stdout[-500:]}{done.stderr}", False)
        return
    package = packages[0]
    if shared:
        shutil.copy(package, shared)
    t.true(f"it is called {package.name}", re.fullmatch(r"waxwright_\d+\.\d+\.\d+_\w+\.deb",
                                                        package.name))
    for field, wanted in FIELDS.items():
        got = t.run("dpkg-deb", "-f", package, field).stdout.strip()
        t.true(f"{field}: {got}", got == wanted)
    depends = t.run("dpkg-deb", "-f", package, "Depends").stdout
    t.true(f"it depends on {depends}", "libc6 (>=" in depends and "libfmt" in depends)
    listed = t.run("dpkg-deb", "-c", package).stdout
    for name in [*INSTALLED, "share/zsh/vendor-completions/_waxwright"]:
        t.true(f"the package has no /usr/{name}", f" ./usr/{name}\n" in listed)
    t.true("only /usr", all(" ./usr/" in line for line in listed.splitlines()))
    t.true("all of it root's", all(" root/root " in line for line in listed.splitlines()))
    if shutil.which("lintian"):
        as_root = ["--allow-root"] if os.geteuid() == 0 else []
        said = t.run("lintian", *as_root, "--fail-on", "error,warning", package)
        t.true(f"lintian: {said.stdout}", said.returncode == 0)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--build", required=True, type=Path)
    parser.add_argument("--tree", required=True, type=Path)
    parser.add_argument("--keep", metavar="FOLDER", help="copy the package there")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="waxwright-package-") as folder:
        t = Install(options.build.resolve(), Path(folder).resolve())
        try:
            try_prefixes(t, options.tree.resolve())
            try_package(t, options.keep)
        finally:
            t.restore()
    for fault in t.faults:
        print(f"package: {fault}")
    print(f"package: {len(t.faults)} faults")
    return 1 if t.faults else 0


if __name__ == "__main__":
    sys.exit(main())
