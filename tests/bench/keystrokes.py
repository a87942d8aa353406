#!/usr/bin/env python3
"""Time what an editor waits for: from a key to the findings of the new text, on a long file.

    keystrokes.py --waxwright BIN [--lines 10000] [--keys 60] [--seed 1]

A file of at least so many lines is opened in `waxwright lsp`. Then keys are typed, one at a time
and all over the file: most break something or mend it, as typing does. For each the time from
writing its didChange to reading the last byte of the file's diagnostics is taken. Printed are the
lines, the median, the slowest of twenty (95th percentile) and the slowest. Nothing passes or fails
on time. Exit 0: all was measured; 1: the server gave no answer; 2: a wrong call.
"""

import argparse
import json
import os
import random
import statistics
import subprocess
import sys
import tempfile
import time

sys.dont_write_bytecode = True

import generate


class Server:
    def __init__(self, program):
        self.process = subprocess.Popen([program, "lsp"], stdin=subprocess.PIPE,
                                        stdout=subprocess.PIPE)
        self.send({"id": 1, "method": "initialize", "params": {"capabilities": {}}})
        self.read()
        self.send({"method": "initialized", "params": {}})

    def send(self, message):
        body = json.dumps({"jsonrpc": "2.0", **message}).encode()
        self.process.stdin.write(b"Content-Length: %d\r\n\r\n" % len(body) + body)
        self.process.stdin.flush()

    def read(self):
        length = None
        while (line := self.process.stdout.readline()) != b"\r\n":
            if not line:
                raise EOFError("the server is gone")
            name, _, value = line.partition(b":")
            if name.lower() == b"content-length":
                length = int(value)
        return self.process.stdout.read(length)

    def findings(self, version):
        """The bytes of the diagnostics for a version of the text."""
        while True:
            message = self.read()
            if b'"version":%d' % version in message:
                return message


def long_file(lines, seed):
    with tempfile.TemporaryDirectory() as folder:
        count = max(1, lines // 27)
        while True:
            generate.write(count, folder, seed, "light")
            path = os.path.join(folder, f"bench-{count}.candle")
            with open(path, encoding="utf-8") as file:
                text = file.read()
            if text.count("\n") >= lines:
                return text
            count += max(1, count // 100)


def keys(text, count, seed):
    """Places and what is typed there: (line, character, text), each taken back by the next."""
    draw = random.Random(seed)
    lines = text.split("\n")
    places = [n for n, line in enumerate(lines) if line.strip() and line.isascii()]
    for _ in range(count // 2):
        line = draw.choice(places)
        character = draw.randrange(len(lines[line]) + 1)
        yield line, character, draw.choice("ae1 {:%")


def measure(program, lines, count, seed):
    text = long_file(lines, seed)
    uri = "file:///nowhere/long.candle"
    server = Server(program)
    server.send({"method": "textDocument/didOpen", "params": {"textDocument": {
        "uri": uri, "languageId": "candle", "version": 1, "text": text}}})
    server.findings(1)
    version, times = 1, []

    def press(line, begin, end, typed):
        nonlocal version
        version += 1
        change = {"range": {"start": {"line": line, "character": begin},
                            "end": {"line": line, "character": end}}, "text": typed}
        started = time.perf_counter()
        server.send({"method": "textDocument/didChange", "params": {
            "textDocument": {"uri": uri, "version": version}, "contentChanges": [change]}})
        server.findings(version)
        times.append((time.perf_counter() - started) * 1000)

    for line, character, typed in keys(text, count, seed):
        press(line, character, character, typed)
        press(line, character, character + 1, "")
    server.send({"id": 2, "method": "shutdown"})
    server.read()
    server.send({"method": "exit"})
    server.process.wait(timeout=60)
    return text.count("\n"), sorted(times)


def main():
    parser = argparse.ArgumentParser(description="from a key to the findings")
    parser.add_argument("--waxwright", required=True)
    parser.add_argument("--lines", type=int, default=10000)
    parser.add_argument("--keys", type=int, default=60)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    if asked.lines < 1 or asked.keys < 2:
        parser.error("lines from 1, keys from 2")
    try:
        lines, times = measure(asked.waxwright, asked.lines, asked.keys, asked.seed)
    except EOFError as problem:
        print(problem, file=sys.stderr)
        return 1
    print(f"{lines} lines, {len(times)} keys: median {statistics.median(times):.1f} ms, "
          f"95 % within {times[int(len(times) * 0.95) - 1]:.1f} ms, slowest {times[-1]:.1f} ms")
    return 0


if __name__ == "__main__":
    sys.exit(main())
