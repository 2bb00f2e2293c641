package sync

import "math/bits"

// sha256 is SHA-256 as FIPS 180-4 writes it, in its notation (sections 4.1.2,
// 4.2.2, 5.1.1, 5.3.3, 6.2.2). The phone uses it, because crypto/sha256 brings
// a random generator and 32 MB of memory along; everybody else uses the
// standard library (hash.go). Tests hold the two against each other and
// against the standard's examples.
func sha256(message []byte) Hash {
	h := [8]uint32{0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a, 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19}
	full := len(message) &^ 63
	for i := 0; i < full; i += 64 {
		compress(&h, message[i:i+64])
	}
	// Padding: a one bit, zeros, the length in bits as 64 bits.
	last := append(make([]byte, 0, 128), message[full:]...)
	last = append(last, 0x80)
	for len(last)%64 != 56 {
		last = append(last, 0)
	}
	last = appendUint64(last, uint64(len(message))*8)
	for i := 0; i < len(last); i += 64 {
		compress(&h, last[i:i+64])
	}
	var sum Hash
	for i, word := range h {
		sum[4*i], sum[4*i+1], sum[4*i+2], sum[4*i+3] = byte(word>>24), byte(word>>16), byte(word>>8), byte(word)
	}
	return sum
}

// compress takes one block of 64 bytes into the hash value.
func compress(hash *[8]uint32, block []byte) {
	var w [64]uint32
	for t := range 16 {
		w[t] = uint32(block[4*t])<<24 | uint32(block[4*t+1])<<16 | uint32(block[4*t+2])<<8 | uint32(block[4*t+3])
	}
	for t := 16; t < 64; t++ {
		sigma0 := bits.RotateLeft32(w[t-15], -7) ^ bits.RotateLeft32(w[t-15], -18) ^ w[t-15]>>3
		sigma1 := bits.RotateLeft32(w[t-2], -17) ^ bits.RotateLeft32(w[t-2], -19) ^ w[t-2]>>10
		w[t] = sigma1 + w[t-7] + sigma0 + w[t-16]
	}
	a, b, c, d, e, f, g, h := hash[0], hash[1], hash[2], hash[3], hash[4], hash[5], hash[6], hash[7]
	for t := range 64 {
		sum1 := bits.RotateLeft32(e, -6) ^ bits.RotateLeft32(e, -11) ^ bits.RotateLeft32(e, -25)
		t1 := h + sum1 + (e&f ^ ^e&g) + roundConstants[t] + w[t]
		sum0 := bits.RotateLeft32(a, -2) ^ bits.RotateLeft32(a, -13) ^ bits.RotateLeft32(a, -22)
		t2 := sum0 + (a&b ^ a&c ^ b&c)
		h, g, f, e, d, c, b, a = g, f, e, d+t1, c, b, a, t1+t2
	}
	hash[0] += a
	hash[1] += b
	hash[2] += c
	hash[3] += d
	hash[4] += e
	hash[5] += f
	hash[6] += g
	hash[7] += h
}

// roundConstants are the first 32 bits of the fractional parts of the cube
// roots of the first 64 primes (FIPS 180-4, 4.2.2); a test computes them.
var roundConstants = [64]uint32{
	0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
	0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
	0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
	0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
	0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
	0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
	0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
	0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2,
}
