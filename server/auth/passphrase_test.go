package auth

import (
	"testing"
)

// Ensure strings made by the reference implementation are understood. They
// are the first test vectors for Argon2id of its src/test.c (repository
// P-H-C/phc-winner-argon2), password "password", salt "somesalt"; from memory.
func TestPHCFromElsewhere(t *testing.T) {
	h := newHasher()
	for _, phc := range []string{
		"$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc",
		"$argon2id$v=19$m=256,t=2,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4",
	} {
		right, stale, err := h.verify(t.Context(), phc, "password")
		if err != nil || !right || !stale {
			t.Errorf("%s: right = %v, stale = %v, %v", phc, right, stale, err)
		}
		if right, _, err := h.verify(t.Context(), phc, "Password"); err != nil || right {
			t.Errorf("%s takes another password (%v)", phc, err)
		}
	}
}

// Ensure what is written can be read, two hashes of one passphrase differ,
// and an é is an é whichever way the phone spells it.
func TestHash(t *testing.T) {
	h := newHasher()
	const composed, decomposed = "caf\u00e9 noir et sucre", "cafe\u0301 noir et sucre"
	one, err := h.hash(t.Context(), composed)
	if err != nil {
		t.Fatal(err)
	}
	two, err := h.hash(t.Context(), composed)
	if err != nil || one == two {
		t.Errorf("two hashes are alike (%v)", err)
	}
	for _, typed := range []string{composed, decomposed} {
		if right, stale, err := h.verify(t.Context(), one, typed); err != nil || !right || stale {
			t.Errorf("%q: right = %v, stale = %v, %v", typed, right, stale, err)
		}
	}
}

// Ensure a damaged hash on file is an error of the server's and never a way
// in, nor a way to make it use all its memory.
func TestPHCDamaged(t *testing.T) {
	h := newHasher()
	for _, phc := range []string{
		"password",
		"$argon2i$v=19$m=256,t=2,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4",
		"$argon2id$v=16$m=256,t=2,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4",
		"$argon2id$v=19$m=4294967295,t=2,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4",
		"$argon2id$v=19$m=256,t=0,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4",
		"$argon2id$v=19$m=256$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4",
		"$argon2id$v=19$m=256,t=2,p=1$c29tZXNhbHQ$",
		"$argon2id$v=19$m=256,t=2,p=1$$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4",
		"$argon2id$v=19$m=256,t=2,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4$more",
	} {
		if right, _, err := h.verify(t.Context(), phc, "password"); err == nil || right {
			t.Errorf("%s: right = %v, %v; want an error", phc, right, err)
		}
	}
}
