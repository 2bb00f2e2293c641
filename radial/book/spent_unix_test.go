//go:build unix

package book

import (
	"syscall"
	"time"
)

// spent is the processor's time this process has used: the machine may have other things to do.
func spent() time.Duration {
	var u syscall.Rusage
	_ = syscall.Getrusage(syscall.RUSAGE_SELF, &u)
	return time.Duration(u.Utime.Nano())
}
