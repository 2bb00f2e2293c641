#!/usr/bin/env python3
"""Writes receipt-1.json, snapshot-1.json, salvage-1.json and chain-reply-1.json
beside it from entry-1.json, from the layouts in words (sync/receipt.go,
sync/snapshot.go, sync/salvage.go). No line of Linkrod runs. The signature is
OpenSSL's, with the first secret key of RFC 8032, section 7.1.

    python3 testdata/wire/ledger.py

The files are never edited after release; a new layout gets new files.
"""
import base64, json, os, struct, subprocess, tempfile

here = os.path.dirname(os.path.abspath(__file__))
vectors = json.load(open(os.path.join(here, "entry-1.json")))
records = vectors["records"]
book = records[0]["entry"]["book"]

def fields(*list):
    return b"".join(struct.pack(">I", len(f)) + f for f in list)

def save(name, value):
    with open(os.path.join(here, name), "w") as f:
        json.dump(value, f, indent=1, ensure_ascii=False)
        f.write("\n")

SECRET = bytes.fromhex("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60")
PUBLIC = "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a"

def sign(message):
    with tempfile.TemporaryDirectory() as d:
        key, text, sig = (os.path.join(d, n) for n in ("key", "text", "sig"))
        open(key, "wb").write(bytes.fromhex("302e020100300506032b657004220420") + SECRET)  # RFC 8410, section 7
        open(text, "wb").write(message)
        subprocess.run(["openssl", "pkeyutl", "-sign", "-rawin", "-keyform", "DER", "-inkey", key, "-in", text, "-out", sig], check=True)
        return open(sig, "rb").read()

def receipt(seq, chain, received):
    message = fields(bytes.fromhex(book), struct.pack(">Q", seq), bytes.fromhex(chain), struct.pack(">q", received))
    return {"book": book, "seq": seq, "chain": chain, "received": received, "key": "rfc8032",
            "sig": base64.b64encode(sign(message)).decode()}, message.hex()

last = records[-1]
head = {"seq": last["seq"], "chain": last["chain"]}
proof, message = receipt(last["seq"], last["chain"], 1762700500000)
save("receipt-1.json", {"receipt": proof, "message": message, "public": PUBLIC})

entries = [r["entry"] for r in records]
table = lambda values: list(dict.fromkeys(values))
devices = table([e["device"] for e in entries])
accounts, authors = table([r["account"] for r in records]), table([r["author"] for r in records])
KINDS = ["fact", "replace", "strike", "sign", "settle"]
steps, prevs, before, received = [], [], {}, []
at = 0
for r in records:
    e = r["entry"]
    n, hash = before.get(e["device"], (0, "00" * 32))
    steps.append(e["n"] - n - 1)
    if e["prev"] != hash:
        prevs += [r["seq"], e["prev"]]
    before[e["device"]] = (e["n"], e["hash"])
    received.append(r["received"] - at)
    at = r["received"]
save("snapshot-1.json", {
    "proto": 1, "now": 1762700500000, "linkrod": "snapshot", "version": 1, "book": book, "head": head, "receipts": [proof],
    "devices": devices, "accounts": accounts, "authors": authors,
    "device": [devices.index(e["device"]) for e in entries], "n": steps, "kind": [KINDS.index(e["kind"]) for e in entries],
    "refs": [[x for ref in e["refs"] for x in (devices.index(ref["device"]), ref["n"])] for e in entries],
    "body": [base64.b64decode(e["body"]).decode() for e in entries],
    "seen": [r["seq"] - 1 - r["entry"]["seen"] for r in records], "schema": [e["schema"] for e in entries],
    "wall": [r["received"] - r["entry"]["clock"]["wall"] for r in records], "zone": [e["clock"]["zone"] for e in entries],
    "received": received, "account": [accounts.index(r["account"]) for r in records], "author": [authors.index(r["author"]) for r in records],
    "prev": prevs, "bytes": []})

first = records[0]
lost = [{k: v for k, v in r.items() if k != "chain"} for r in records[1:]]
save("salvage-1.json", {"after": {"seq": first["seq"], "chain": first["chain"]}, "receipt": proof, "records": lost})
save("salvage-reply-1.json", {"proto": 1, "now": 1762700600000, "results": [
    {"device": records[1]["entry"]["device"], "n": 2, "state": "ok", "seq": 2},
    {"device": records[2]["entry"]["device"], "n": 3, "state": "held", "code": "salvage", "words": "Nothing proves that this entry was in the book."}],
    "head": 2, "chain": records[1]["chain"], "receipt": receipt(2, records[1]["chain"], 1762700600000)[0]})
save("chain-reply-1.json", {"proto": 1, "now": 1762700600000, "at": [{"seq": r["seq"], "chain": r["chain"]} for r in records[:2]]})
