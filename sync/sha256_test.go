package sync

import (
	crypto "crypto/sha256"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"
)

// The examples of FIPS 180-2, appendix B (the same as in NIST's page of
// examples for SHA-256), and of the empty message.
func TestSHA256Examples(t *testing.T) {
	for _, test := range []struct{ message, want string }{
		{"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"},
		{"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
		{"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"},
		{strings.Repeat("a", 1_000_000), "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"},
	} {
		if got := sha256([]byte(test.message)); got.String() != test.want {
			t.Errorf("%d bytes: %v, want %s", len(test.message), got, test.want)
		}
	}
}

// Ensure every length around the block's edges, and random longer ones, give
// what the standard library gives.
func TestSHA256AgreesWithTheStandardLibrary(t *testing.T) {
	rnd := rand.New(rand.NewPCG(256, 1))
	for n := range 700 {
		if n > 300 {
			n = rnd.IntN(40_000)
		}
		message := make([]byte, n)
		for i := range message {
			message[i] = byte(rnd.Uint32())
		}
		if got, want := sha256(message), Hash(crypto.Sum256(message)); got != want || sum(message) != want {
			t.Fatalf("%d bytes: %v, want %v", n, got, want)
		}
	}
}

// Ensure the constants are the cube roots they are said to be: floor of the
// cube root of p * 2^96 is the root times 2^32, whose low 32 bits they are.
func TestRoundConstants(t *testing.T) {
	i := 0
	for p := int64(2); i < len(roundConstants); p++ {
		if !big.NewInt(p).ProbablyPrime(20) {
			continue
		}
		cube := new(big.Int).Lsh(big.NewInt(p), 96)
		low, high := big.NewInt(0), new(big.Int).Lsh(big.NewInt(1), 40)
		for new(big.Int).Sub(high, low).Cmp(big.NewInt(1)) > 0 {
			mid := new(big.Int).Rsh(new(big.Int).Add(low, high), 1)
			if new(big.Int).Exp(mid, big.NewInt(3), nil).Cmp(cube) <= 0 {
				low = mid
			} else {
				high = mid
			}
		}
		if got := uint32(low.Uint64()); got != roundConstants[i] {
			t.Errorf("constant %d (prime %d) is %08x, want %08x", i, p, roundConstants[i], got)
		}
		i++
	}
}
