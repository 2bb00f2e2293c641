package auth

import (
	"net/netip"
	stdsync "sync"
	"time"

	"golang.org/x/time/rate"

	"linkrod/server/fault"
)

// brakes slow down guessing. They are per process and forget at a restart,
// which is enough: what they protect is long (passphrases) or lives for ten
// minutes (codes).
type brakes struct {
	setup    *brake // by address
	signIn   *brake // by address
	name     *brake // by name signed in as
	pair     *brake // codes made, by account
	claim    *brake // codes tried, by address
	claimAll *brake // codes tried, all together: an attacker has many addresses
	invite   *brake // invitations made, by account
	invited  *brake // invitations looked at and tried, by address
}

func newBrakes() brakes {
	return brakes{
		setup:    newBrake(10, 6*time.Second),
		signIn:   newBrake(10, 6*time.Second),
		name:     newBrake(20, 15*time.Second),
		pair:     newBrake(10, 30*time.Second),
		claim:    newBrake(5, 12*time.Second),
		claimAll: newBrake(30, 2*time.Second),
		invite:   newBrake(20, 30*time.Second),
		invited:  newBrake(20, 6*time.Second),
	}
}

// brake lets each key try burst times at once and then once every so often.
type brake struct {
	burst int
	every time.Duration

	mu   stdsync.Mutex
	keys map[string]*rate.Limiter
}

// brakeKeys is how many keys are remembered at once. Keys at rest are
// forgotten first, and a flood of new ones is turned away rather than letting
// it wash out the ones that are being slowed.
const brakeKeys = 10_000

func newBrake(burst int, every time.Duration) *brake {
	return &brake{burst: burst, every: every, keys: map[string]*rate.Limiter{}}
}

// take counts one try; TooMany when key has had its share.
func (b *brake) take(key string) error {
	b.mu.Lock()
	defer b.mu.Unlock()
	key = network(key)
	now := time.Now()
	l := b.keys[key]
	if l == nil {
		if len(b.keys) >= brakeKeys {
			b.forget(now)
		}
		if len(b.keys) >= brakeKeys {
			return tooMany()
		}
		l = rate.NewLimiter(rate.Every(b.every), b.burst)
		b.keys[key] = l
	}
	if !l.AllowN(now, 1) {
		return tooMany()
	}
	return nil
}

// forget drops the keys that have their full share again.
func (b *brake) forget(now time.Time) {
	for key, l := range b.keys {
		if l.TokensAt(now) >= float64(b.burst) {
			delete(b.keys, key)
		}
	}
}

// network is the part of an address that one party can't change at will: all
// of an IPv4 address, the first 64 bits of an IPv6 one. Other keys stay as
// they are.
func network(key string) string {
	addr, err := netip.ParseAddr(key)
	if err != nil || addr.Unmap().Is4() {
		return key
	}
	prefix, err := addr.Prefix(64)
	if err != nil {
		return key
	}
	return prefix.String()
}

func tooMany() error {
	return fault.New(fault.TooMany, "Too many tries. Wait a minute, then try again.")
}
