#!/usr/bin/env python3
"""Writes entry-1.json: entries and records whose hashes were computed here,
with Python's hashlib and struct, from the byte layout in words
(sync/entry.go, Entry.Sum; sync/ledger.go, Head.Next). No line of Linkrod runs.

    python3 testdata/wire/vectors.py > testdata/wire/entry-1.json

The file is never edited after release; a new layout gets a new file.
"""
import base64, hashlib, json, struct, sys

def digest(*fields):
    h = hashlib.sha256()
    for f in fields:
        h.update(struct.pack(">I", len(f)) + f)
    return h.digest()

def entry(device, n, book, prev, kind, refs, body, wall, zone, seen):
    packed = b"".join(bytes.fromhex(d) + struct.pack(">Q", m) for d, m in refs)
    h = digest(bytes.fromhex(device), struct.pack(">Q", n), bytes.fromhex(book),
               bytes.fromhex(prev), kind.encode("ascii"), packed, body)
    return {"device": device, "n": n, "book": book, "prev": prev, "kind": kind,
            "refs": [{"device": d, "n": m} for d, m in refs],
            "body": base64.b64encode(body).decode("ascii"), "hash": h.hex(),
            "seen": seen, "schema": 1, "clock": {"wall": wall, "zone": zone}}

A, B = "000102030405060708090a0b0c0d0e0f", "f0f1f2f3f4f5f6f7f8f9fafbfcfdfeff"
BOOK, ACCOUNT, NONE = "00112233445566778899aabbccddeeff", "0123456789abcdef0123456789abcdef", "00" * 32

first = entry(A, 1, BOOK, NONE, "fact", [], b'{"type":"engine","demo":true}', 1762700000000, 60, 0)
oil = entry(A, 2, BOOK, first["hash"], "fact", [],
            '{"type":"oil","hours":{"v":"523.60","u":"h"},"level":{"v":"15","u":"qt"},"note":"DEMO, tail down, 40 °F"}'.encode(),
            1762700300000, -480, 1)
strike = entry(A, 3, BOOK, oil["hash"], "strike", [(A, 2)], b'{"type":"strike","reason":"wrong line"}', 0, 0, 2)
settle = entry(B, 4294967298, BOOK, "11" * 32, "settle", [(A, 1), (B, 9007199254740991 // 2 ** 22)],
               b"\x00\xff not JSON, yet it has a hash", -62135596800000, 840, 9007199254740991)
empty = entry(B, 1, BOOK, NONE, "fact", [], b"", 0, 0, 0)

records, chain = [], bytes(32)
for seq, (e, received) in enumerate([(first, 1762700400000), (oil, 1762700400000), (strike, -1)], start=1):
    chain = digest(chain, struct.pack(">Q", seq), bytes.fromhex(e["hash"]), bytes.fromhex(ACCOUNT), struct.pack(">q", received))
    records.append({"seq": seq, "received": received, "account": ACCOUNT, "author": "DEMO mechanic",
                    "chain": chain.hex(), "entry": e})

json.dump({"comment": "Entries and a ledger of three. Hashes computed by vectors.py with Python's hashlib, not by Linkrod.",
           "entries": [first, oil, strike, settle, empty], "records": records},
          sys.stdout, indent=1, ensure_ascii=False)
print()
