"""Run one command once and print what it took: for run.py, not for people.

    python3 -I -S stopwatch.py STDOUT STDERR COMMAND...

prints wall seconds, CPU seconds (user and system), peak memory in KiB and the exit status.

This is a program of its own because of ru_maxrss: Linux counts into it the memory the child held
before its exec, which is that of the process it was forked from. An interpreter with next to
nothing loaded keeps that floor low; run.py measures what is left of it and shows it.
"""

import os
import sys
import time


def main():
    out, err = sys.argv[1:3]
    command = sys.argv[3:]
    out_file = os.open(out, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
    err_file = os.open(err, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
    nothing = os.open(os.devnull, os.O_RDONLY)
    start = time.perf_counter()
    child = os.fork()
    if child == 0:
        try:
            os.dup2(nothing, 0)
            os.dup2(out_file, 1)
            os.dup2(err_file, 2)
            os.execv(command[0], command)
        finally:
            # Only reached where exec failed; 127 is what a shell says then.
            os._exit(127)
    _, status, usage = os.wait4(child, 0)
    wall = time.perf_counter() - start
    # macOS counts bytes where Linux counts KiB.
    peak = usage.ru_maxrss // 1024 if sys.platform == "darwin" else usage.ru_maxrss
    print(wall, usage.ru_utime + usage.ru_stime, peak, os.waitstatus_to_exitcode(status))


main()
