#!/usr/bin/env python3
"""An independent checker of records, written from SPEC.md alone.

    python3 check.py RECORD.zip [--key VKEY] [--slip FILE] [--json]

Exit status: 0 no failing finding, 1 at least one, 2 bad usage, an unreadable file or no fit `openssl`.
Item 11 of L41 (figures, PDF, tables) needs the rules of the trade and is not checked here.
"""

import argparse
import json
import os
import sys

sys.dont_write_bytecode = True  # nothing but what is committed should lie in this folder
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

from archive import Archive  # noqa: E402
from check_authors import check_authors, collect_devices  # noqa: E402
from check_company import check_company, check_company_chain, check_founding  # noqa: E402
from check_earlier import check_earlier  # noqa: E402
from check_entries import check_entries  # noqa: E402
from check_frame import (check_checkpoint, check_files, check_key, check_made, check_manifest, check_sums,  # noqa: E402
                         check_zip)
from check_photos import check_photos  # noqa: E402
from check_quarantine import check_quarantine  # noqa: E402
from check_slips import check_slips  # noqa: E402
from check_stamps import check_stamps  # noqa: E402
from check_thread import check_thread, check_thread_inclusion  # noqa: E402
from ed25519_openssl import NoOpenssl, Verifier  # noqa: E402
from notes import read_verifier_key  # noqa: E402
from state import SMALL_FILE, State  # noqa: E402
from values import Malformed  # noqa: E402

# Each step with the code and the file under which it is reported should it stop half-way.
STEPS = (
    ("zip-malformed", "-", check_zip),
    ("key-malformed", "log.vkey", check_key),
    ("manifest-malformed", "manifest.note", check_manifest),
    ("file-differs", "-", check_files),
    ("sums-differ", "SHA256SUMS", check_sums),
    ("checkpoint-malformed", "checkpoint.note", check_checkpoint),
    ("leaf-malformed", "thread.txt", check_thread),
    ("inclusion-failed", "thread.tlog-proof", check_thread_inclusion),
    ("entry-malformed", "-", check_entries),
    ("entry-malformed", "-", check_company),
    ("leaf-malformed", "-", check_company_chain),
    ("manifest-malformed", "manifest.note", check_made),
    ("founding-missing", "-", check_founding),
    ("entry-set-aside", "-", check_quarantine),
    ("device-unknown", "-", collect_devices),
    ("author-proof", "-", check_authors),
    ("consistency-failed", "-", check_earlier),
    ("photo-differs", "-", check_photos),
    ("slip-malformed", "-", check_slips),
    ("stamp-differs", "-", check_stamps),
)


def check_record(path, given_key=None, slips=(), verifier=None):
    """The findings and counts of one record. Raises OSError where the file can't be read."""
    own = verifier or Verifier()
    try:
        archive = Archive(path)
        try:
            state = State(archive, own, given_key, slips)
            for code, name, step in STEPS:
                state.guarded(code, name, step, state)
        finally:
            archive.close()
    finally:
        if own is not verifier:
            own.close()
    state.counts["signatures"] = own.runs
    return state.findings, state.counts


# ---------------------------------------------------------------- the command

def printable(text):
    """One finding is one line of ASCII, whatever a damaged file calls itself and whatever the terminal can show."""
    return "".join(character if " " <= character <= "~" else "\\u{%x}" % ord(character) for character in text)


def summary(findings, counts):
    failing = len(findings.failing())
    trust = ("with the key that was given" if counts["key"] == "given" else
             "with the record's own key alone, which can't tell a log made anew as a whole from the first")  # L40
    parts = ["%s %d" % (name, counts.get(name, 0))
             for name in ("files", "leaves", "entries", "company", "authors", "heads", "earlier", "photos", "slips", "stamps")]
    withheld = counts.get("withheld", [])
    if withheld:
        parts.append("withheld at count " + ",".join(str(count) for count in withheld[:20])
                     + (" and %d more" % (len(withheld) - 20) if len(withheld) > 20 else ""))
    return "%s; checked %s; %s" % ("FAILED: %d findings" % failing if failing else "OK", trust, ", ".join(parts))


def report(findings, counts, as_json):
    items = [(code, printable(name), printable(detail)) for code, name, detail in findings.items]
    if as_json:
        print(json.dumps({"ok": not findings.failing(),
                          "findings": [dict(zip(("code", "file", "detail"), item)) for item in items],
                          "checked": counts}))
        return
    for item in items:
        print("\t".join(item))
    print(summary(findings, counts))


def main(arguments):
    parser = argparse.ArgumentParser(description="Checks a record of the log against its specification.")
    parser.add_argument("record", metavar="RECORD.zip")
    parser.add_argument("--key", metavar="VKEY", help="the log's verifier key, had from elsewhere")
    parser.add_argument("--slip", metavar="FILE", action="append", default=[])
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args(arguments)
    try:
        key = read_verifier_key(options.key.strip()) if options.key is not None else None
        slips = []
        for name in options.slip:
            with open(name, "rb") as file:
                slips.append((os.path.basename(name), file.read(SMALL_FILE)))
        findings, counts = check_record(options.record, key, slips)
    except Malformed as why:
        print("check.py: --key: %s" % why, file=sys.stderr)
        return 2
    except (OSError, NoOpenssl) as why:
        print("check.py: %s" % why, file=sys.stderr)
        return 2
    try:
        report(findings, counts, options.json)
        sys.stdout.flush()
    except BrokenPipeError:
        # Nobody reads on, as under `| head`. What is still in the buffer must not fail once more at the exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return 1 if findings.failing() else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
