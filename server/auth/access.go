package auth

import (
	"errors"
	"fmt"
	"time"

	"github.com/golang-jwt/jwt/v5"

	"linkrod/sync"
)

// What an access token must say (RFC 8725, RFC 9068). The library pins none
// of it by itself.
const (
	tokenType     = "at+jwt" // header typ, so that no other kind of JWT passes for one
	tokenIssuer   = "linkrod"
	tokenAudience = "linkrod api"
	tokenLeeway   = time.Minute // between the clocks of several servers
	tokenMax      = 1024        // bytes; ours are some 350
)

// holder is what an access token proves: which sign-in it came from.
type holder struct {
	account sync.ID
	session sync.ID
}

// claims is the payload. It names no role: roles are read from the store.
type claims struct {
	jwt.RegisteredClaims
	Session sync.ID `json:"sid"`
}

// Validate is called by the library after its own checks.
func (c claims) Validate() error {
	if c.Session.IsZero() {
		return errors.New("no session")
	}
	return nil
}

func (k Key) writeAccess(h holder, expires time.Time) (string, error) {
	token := jwt.NewWithClaims(jwt.SigningMethodHS256, claims{
		RegisteredClaims: jwt.RegisteredClaims{
			Issuer:    tokenIssuer,
			Audience:  jwt.ClaimStrings{tokenAudience},
			Subject:   h.account.String(),
			IssuedAt:  jwt.NewNumericDate(time.Now()),
			ExpiresAt: jwt.NewNumericDate(expires),
		},
		Session: h.session,
	})
	token.Header["typ"] = tokenType
	token.Header["kid"] = k.id
	return token.SignedString(k.access)
}

func (k Key) readAccess(text string) (holder, error) {
	if text == "" || len(text) > tokenMax {
		return holder{}, fmt.Errorf("access token: %d bytes", len(text))
	}
	var c claims
	_, err := jwt.ParseWithClaims(text, &c, func(t *jwt.Token) (any, error) {
		if t.Header["typ"] != tokenType {
			return nil, fmt.Errorf("typ %q", t.Header["typ"])
		}
		if t.Header["kid"] != k.id {
			return nil, fmt.Errorf("kid %q", t.Header["kid"])
		}
		return k.access, nil
	},
		jwt.WithValidMethods([]string{jwt.SigningMethodHS256.Alg()}),
		jwt.WithIssuer(tokenIssuer),
		jwt.WithAudience(tokenAudience),
		jwt.WithExpirationRequired(),
		jwt.WithIssuedAt(),
		jwt.WithLeeway(tokenLeeway),
		jwt.WithStrictDecoding(),
	)
	if err != nil {
		return holder{}, fmt.Errorf("access token: %w", err)
	}
	account, err := sync.ParseID(c.Subject)
	if err != nil {
		return holder{}, fmt.Errorf("access token: subject: %w", err)
	}
	return holder{account: account, session: c.Session}, nil
}
