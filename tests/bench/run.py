#!/usr/bin/env python3
"""Time waxwright against a bare toml++ parse of the same content, and print a table.

    run.py --waxwright BIN --toml-parse BIN [--sizes 1,100,1000,10000] [--runs 7]
           [--seed 1] [--toml light|full] [--out null|file]

See README.md beside this file for what is measured and how to read it. Exit 0: all was measured.
1: a command failed (its times are left out, and this says so). 2: a wrong call.
"""

import argparse
import os
import shutil
import statistics
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
YARDSTICK = "toml++ parse"


class Failed(Exception):
    pass


def measure(command, out, err):
    """Wall seconds, CPU seconds and peak KiB of one run; Failed if it does not exit with 0."""
    watch = [sys.executable, "-I", "-S", os.path.join(HERE, "stopwatch.py"), out, err]
    told = subprocess.run(watch + command, stdout=subprocess.PIPE, check=True, text=True).stdout
    wall, cpu, peak, status = told.split()
    if status != "0":
        raise Failed(f"exit status {status}")
    return float(wall), float(cpu), int(peak)


def first_lines(path, most=5):
    """What a failed command said, for the person who has to look into it."""
    if path == os.devnull or not os.path.exists(path):
        return []
    with open(path, encoding="utf-8", errors="replace") as file:
        return [line.rstrip("\n")[:200] for _, line in zip(range(most), file)]


def shout(name, command, reason, *said):
    print(f"!!! FAILED: {name}: {reason}", file=sys.stderr)
    print(f"!!!   {' '.join(command)}", file=sys.stderr)
    for path in said:
        for line in first_lines(path):
            print(f"!!!   | {line}", file=sys.stderr)
    sys.stderr.flush()


def measure_in_turn(commands, runs, folder, to_file):
    """Each command's median of wall, CPU and peak; None for one that failed.

    All are run once unmeasured, which warms the file cache and shows whether they work. Then they
    take turns, A B C A B C, so that a machine that slows down does so for all of them.
    """
    said = os.path.join(folder, "out.txt")
    complaint = os.path.join(folder, "err.txt")
    samples = {}
    for name, command in commands.items():
        try:
            measure(command, said, complaint)
            samples[name] = []
        except Failed as failure:
            samples[name] = None
            shout(name, command, failure, said, complaint)
    # The warm-up's output may be large, and should not lie in memory beside the measured runs.
    for path in (said, complaint):
        if os.path.exists(path):
            os.remove(path)
    for _ in range(runs):
        for name, command in commands.items():
            if samples[name] is None:
                continue
            try:
                out = said if to_file else os.devnull
                samples[name].append(measure(command, out, os.devnull))
            except Failed as failure:
                samples[name] = None
                shout(name, command, f"{failure}, after it had worked before")
    return {name: tuple(map(statistics.median, zip(*taken))) if taken else None
            for name, taken in samples.items()}


def print_size(size, files, medians, floor):
    print()
    print(f"{size} recipe{'s' if size != 1 else ''}: "
          + ", ".join(f"{os.path.basename(path)} {os.path.getsize(path):,} bytes"
                      for path in files))
    print(f"  {'':18}{'wall ms':>10}{'CPU ms':>10}{'peak MiB':>11}"
          f"{'x wall':>9}{'x CPU':>9}{'x peak':>9}")
    base = medians[YARDSTICK]
    for name, taken in medians.items():
        if taken is None:
            print(f"  {name:18}  FAILED, see above")
            continue
        wall, cpu, peak = taken
        # At the floor the figure is the stopwatch's own, not the program's.
        hidden = peak <= floor[2] * 1.02
        line = f"  {name:18}{wall * 1e3:>10.1f}{cpu * 1e3:>10.1f}"
        line += f"{('<=' if hidden else '') + format(peak / 1024, '.1f'):>11}"
        if name != YARDSTICK and base is not None:
            line += f"{wall / base[0]:>9.2f}{cpu / base[1]:>9.2f}"
            unknown = hidden or base[2] <= floor[2] * 1.02
            line += f"{'-' if unknown else format(peak / base[2], '.2f'):>9}"
        print(line)
    sys.stdout.flush()


def numbers(text):
    parts = text.split(",")
    if not all(part.isascii() and part.isdigit() and int(part) > 0 for part in parts):
        raise argparse.ArgumentTypeError(f"{text}: wanted are whole numbers from 1, with commas")
    return [int(part) for part in parts]


def program(text):
    """A path made absolute, as the commands are started without a search."""
    path = os.path.abspath(text)
    if not os.access(path, os.X_OK) or os.path.isdir(path):
        raise argparse.ArgumentTypeError(f"{text} is no program that can be run")
    return path


def main():
    parser = argparse.ArgumentParser(description="time waxwright against a toml++ parse")
    parser.add_argument("--waxwright", type=program, required=True, metavar="BIN")
    parser.add_argument("--toml-parse", type=program, required=True, metavar="BIN")
    parser.add_argument("--sizes", type=numbers, default=[1, 100, 1000, 10000])
    parser.add_argument("--runs", type=int, default=7)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--toml", choices=["light", "full"], default="light",
                        help="how far the TOML takes blends and steps apart")
    parser.add_argument("--out", choices=["null", "file"], default="null",
                        help="where standard output goes: the null device, or a temporary file")
    arguments = parser.parse_args()
    if arguments.runs < 1:
        parser.error("--runs is a whole number from 1")

    failed = False
    with tempfile.TemporaryDirectory(prefix="waxwright-bench-") as folder:
        nothing = shutil.which("true")
        floor = (0.0, 0.0, 0)
        if nothing:
            floor = measure_in_turn({"true": [nothing]}, arguments.runs, folder, False)["true"]
        print(f"median of {arguments.runs}, TOML {arguments.toml}, standard output to "
              f"{'a file' if arguments.out == 'file' else os.devnull}; x is over {YARDSTICK}")
        print(f"floor (a program that does nothing): {floor[0] * 1e3:.1f} ms wall, "
              f"{floor[1] * 1e3:.1f} ms CPU, {floor[2] / 1024:.1f} MiB peak")
        for size in arguments.sizes:
            subprocess.run([sys.executable, os.path.join(HERE, "generate.py"), str(size), folder,
                            "--seed", str(arguments.seed), "--toml", arguments.toml], check=True)
            candle = os.path.join(folder, f"bench-{size}.candle")
            toml = os.path.join(folder, f"bench-{size}.toml")
            commands = {
                "waxwright sheet": [arguments.waxwright, "sheet", "--all", candle],
                YARDSTICK: [arguments.toml_parse, toml],
                "waxwright check": [arguments.waxwright, "check", candle],
            }
            medians = measure_in_turn(commands, arguments.runs, folder, arguments.out == "file")
            failed = failed or None in medians.values()
            print_size(size, [candle, toml], medians, floor)
    if failed:
        print("!!! Some commands FAILED: the table above is not whole.", file=sys.stderr)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
