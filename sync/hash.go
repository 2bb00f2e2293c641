//go:build !js

package sync

import crypto "crypto/sha256"

func sum(message []byte) Hash { return crypto.Sum256(message) }
