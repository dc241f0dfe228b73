"""One program of several that append to a log at once: ``python -m torture.appending LOG NAME ENTRIES``.

It says that it is ready, waits for a line, and then appends entries of one to three remarks each, with a
moment of its own choice between them. After each it prints the seqs that it was given.
"""

from __future__ import annotations

import random
import sys
import time

from torture.games import remark

from rinkfold.timeline.record import append


def main(path: str, name: str, entries: str) -> None:
    """Append, and acknowledge."""
    print("ready", flush=True)
    sys.stdin.readline()
    chance = random.Random(name)
    for entry in range(int(entries)):
        made = append(path, [remark(f"{name} {entry} {part}") for part in range(1 + entry % 3)])
        time.sleep(chance.choice([0, 0, 0.07]))  # the lock is looked at again every 0.05 s: nobody is to be done before
        print(*(event.seq for event in made), flush=True)


if __name__ == "__main__":
    main(*sys.argv[1:])
