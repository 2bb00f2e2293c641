package sync

func sum(message []byte) Hash { return sha256(message) }
