//go:build !linux

package store_test

import "errors"

func mountSmall(string, string) (func() error, error) { return nil, errors.ErrUnsupported }
