package auth

import (
	"encoding/base64"
	"strings"
	"testing"
	"time"

	"github.com/golang-jwt/jwt/v5"

	"linkrod/server/fault"
)

// Ensure every known way to misuse a JWT fails (RFC 8725, sections 2 and 3).
func TestAccessTokenAbuse(t *testing.T) {
	f := newFixture()
	s := f.MustSetUp(t)
	good := f.MustCheck(t, s.Access)
	now := time.Now()

	// forge signs what a good token says, changed by each case.
	forge := func(method jwt.SigningMethod, key any, change func(header map[string]any, c jwt.MapClaims)) string {
		token := jwt.NewWithClaims(method, jwt.MapClaims{
			"iss": tokenIssuer, "aud": tokenAudience, "sub": good.Account.ID.String(), "sid": good.Session.String(),
			"iat": now.Unix(), "exp": now.Add(AccessLife).Unix(),
		})
		token.Header["typ"], token.Header["kid"] = tokenType, f.key.id
		change(token.Header, token.Claims.(jwt.MapClaims))
		text, err := token.SignedString(key)
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	ours := func(change func(h map[string]any, c jwt.MapClaims)) string {
		return forge(jwt.SigningMethodHS256, f.key.access, change)
	}
	same := func(map[string]any, jwt.MapClaims) {}
	part := strings.Split(s.Access, ".")

	if _, err := f.Check(t.Context(), ours(same)); err != nil {
		t.Fatalf("the forger itself is broken: %v", err)
	}
	for _, tt := range []struct {
		name  string
		token string
	}{
		{"none at all", ""},
		{"alg none", forge(jwt.SigningMethodNone, jwt.UnsafeAllowNoneSignatureType, same)},
		{"alg none with our signature", header(`{"alg":"none","typ":"at+jwt","kid":"`+f.key.id+`"}`) + "." + part[1] + "." + part[2]},
		{"another HMAC", forge(jwt.SigningMethodHS512, f.key.access, same)},
		{"another key", forge(jwt.SigningMethodHS256, NewKey([32]byte{2}).access, same)},
		{"the refresh key", forge(jwt.SigningMethodHS256, f.key.refresh, same)},
		{"an empty key", forge(jwt.SigningMethodHS256, []byte{}, same)},
		{"another kid", ours(func(h map[string]any, c jwt.MapClaims) { h["kid"] = "other" })},
		{"a kid that is a path", ours(func(h map[string]any, c jwt.MapClaims) { h["kid"] = "/dev/null" })},
		{"no kid", ours(func(h map[string]any, c jwt.MapClaims) { delete(h, "kid") })},
		{"typ JWT", ours(func(h map[string]any, c jwt.MapClaims) { h["typ"] = "JWT" })},
		{"no typ", ours(func(h map[string]any, c jwt.MapClaims) { delete(h, "typ") })},
		{"typ a number", ours(func(h map[string]any, c jwt.MapClaims) { h["typ"] = 7 })},
		{"another issuer", ours(func(h map[string]any, c jwt.MapClaims) { c["iss"] = "someone" })},
		{"no issuer", ours(func(h map[string]any, c jwt.MapClaims) { delete(c, "iss") })},
		{"another audience", ours(func(h map[string]any, c jwt.MapClaims) { c["aud"] = "other api" })},
		{"no audience", ours(func(h map[string]any, c jwt.MapClaims) { delete(c, "aud") })},
		{"expired", ours(func(h map[string]any, c jwt.MapClaims) { c["exp"] = now.Add(-2 * tokenLeeway).Unix() })},
		{"no expiry", ours(func(h map[string]any, c jwt.MapClaims) { delete(c, "exp") })},
		{"expiry a text", ours(func(h map[string]any, c jwt.MapClaims) { c["exp"] = "tomorrow" })},
		{"not yet issued", ours(func(h map[string]any, c jwt.MapClaims) { c["iat"] = now.Add(time.Hour).Unix() })},
		{"not yet valid", ours(func(h map[string]any, c jwt.MapClaims) { c["nbf"] = now.Add(time.Hour).Unix() })},
		{"no session", ours(func(h map[string]any, c jwt.MapClaims) { delete(c, "sid") })},
		{"a session nobody has", ours(func(h map[string]any, c jwt.MapClaims) { c["sid"] = strings.Repeat("ab", 16) })},
		{"a session in capitals", ours(func(h map[string]any, c jwt.MapClaims) { c["sid"] = strings.ToUpper(good.Session.String()) })},
		{"another's session", ours(func(h map[string]any, c jwt.MapClaims) { c["sub"] = strings.Repeat("ab", 16) })},
		{"no subject", ours(func(h map[string]any, c jwt.MapClaims) { delete(c, "sub") })},
		{"payload changed", part[0] + "." + header(`{"sub":"x"}`) + "." + part[2]},
		{"signature cut", s.Access[:len(s.Access)-2]},
		{"signature missing", part[0] + "." + part[1] + "."},
		{"padded base64", part[0] + "." + part[1] + "." + part[2] + "="},
		{"loose last character", part[0] + "." + part[1] + "." + loose(part[2])},
		{"two parts", part[0] + "." + part[1]},
		{"four parts", s.Access + "." + part[2]},
		{"the refresh token", s.Refresh},
		{"much too long", s.Access + strings.Repeat("A", tokenMax)},
		{"ours, with a book in it", ours(func(h map[string]any, c jwt.MapClaims) { c["pad"] = strings.Repeat("A", tokenMax) })},
		{"blanks", " " + s.Access},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := f.Check(t.Context(), tt.token)
			wantCode(t, err, fault.SignIn)
		})
	}
}

func header(text string) string { return base64.RawURLEncoding.EncodeToString([]byte(text)) }

// loose changes only the bits of the last base64 character that carry no
// data: lenient decoders take it for the same signature.
func loose(signature string) string {
	const alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"
	last := strings.IndexByte(alphabet, signature[len(signature)-1])
	return signature[:len(signature)-1] + string(alphabet[last^1])
}

// FuzzReadAccess looks for a token that panics or is taken.
func FuzzReadAccess(f *testing.F) {
	// A key of its own for each process: the fuzzer runs several, and hands seeds from one to the other.
	key := NewKey([32]byte(newSecret()))
	good, err := key.writeAccess(holder{account: newID(), session: newID()}, time.Now().Add(time.Hour))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(good)
	f.Add("")
	f.Add("a.b.c")
	f.Add(header(`{"alg":"none"}`) + "." + header(`{}`) + ".")
	f.Fuzz(func(t *testing.T, token string) {
		if _, err := key.readAccess(token); err == nil && token != good {
			t.Errorf("taken: %s", token)
		}
	})
}
