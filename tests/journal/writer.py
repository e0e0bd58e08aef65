"""Inserts documents for ever and says each number once it was acknowledged; meant to be killed."""

import os
import sys
from itertools import count

from fieldapp.errors import FieldAppError
from fieldapp.journal.store import JobDB
from tests.journal.conftest import DEVICE, clock


def document(number):
    return {"number": number, "reading": f"{number / 100:.2f}", "note": "é" * (number % 200)}


def limit_size(largest):
    import resource

    resource.setrlimit(resource.RLIMIT_FSIZE, (largest, largest))


def insert_for_ever(path):
    events = JobDB(path, device=DEVICE, clock=clock).table("events")
    for number in count(len(events) + 1):
        events.insert(document(number))
        os.write(1, f"{number}\n".encode())


if __name__ == "__main__":
    if len(sys.argv) > 2:
        limit_size(int(sys.argv[2]))
    try:
        insert_for_ever(sys.argv[1])
    except FieldAppError as problem:
        sys.exit(str(problem))
