package store_test

import "syscall"

// mountSmall mounts a tmpfs of the given size over dir.
func mountSmall(dir, size string) (unmount func() error, err error) {
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size="+size); err != nil {
		return nil, err
	}
	return func() error { return syscall.Unmount(dir, 0) }, nil
}
