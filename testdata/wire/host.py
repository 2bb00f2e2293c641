#!/usr/bin/env python3
"""Writes journal-reply-1.json beside it: three lines of the journal, chained by
hashlib from the layout in words (server/people/journal.go). No line of Linkrod
runs. The file is never edited after release; a new layout gets a new file.

    python3 testdata/wire/host.py
"""
import hashlib, json, os, struct

here = os.path.dirname(os.path.abspath(__file__))
ANN, BEN = "0123456789abcdef0123456789abcdef", "fedcba98765432100123456789abcdef"
DEVICE, BOOK, NONE = "000102030405060708090a0b0c0d0e0f", "00112233445566778899aabbccddeeff", "0" * 32

def line(before, seq, at, what, by=NONE, account=NONE, device=NONE, book=NONE, words=""):
    h = hashlib.sha256()
    for field in (bytes.fromhex(before), struct.pack(">Q", seq), struct.pack(">q", at), what.encode(),
                  *map(bytes.fromhex, (by, account, device, book)), words.encode()):
        h.update(struct.pack(">I", len(field)) + field)
    return {"seq": seq, "at": at, "what": what, "by": by, "account": account, "device": device, "book": book,
            "words": words, "chain": h.hexdigest()}

one = line("0" * 64, 1, 1762690000000, "set up", by=ANN, account=ANN, words="DEMO mechanic")
two = line(one["chain"], 2, 1762690100000, "signed in", by=BEN, account=BEN, device=DEVICE)
three = line(two["chain"], 3, 1762690200000, "entry admitted", by=ANN, account=BEN, device=DEVICE, book=BOOK,
             words="entry 2: DEMO, read before the rig — \u00bd qt low")
with open(os.path.join(here, "journal-reply-1.json"), "w") as f:
    json.dump({"proto": 1, "now": 1762700500000, "lines": [three, two, one]}, f, indent=1, ensure_ascii=False)
    f.write("\n")
