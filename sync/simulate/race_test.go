//go:build race

package simulate

func init() { slowly = true }
