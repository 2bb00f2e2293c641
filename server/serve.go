package main

import (
	"context"
	"errors"
	"fmt"
)

// serve runs the server until it is asked to stop.
func serve(ctx context.Context, args []string, w world) error {
	var c Config
	rest, err := parse(&c, "", args, w)
	if err != nil {
		return err
	}
	if len(rest) > 0 {
		return errUsage{fmt.Sprintf("serve takes flags only, and there is %q", rest[0])}
	}
	log, err := c.logger(w.err)
	if err != nil {
		return err
	}
	p := &Program{Config: c, Out: w.out, Log: log}
	if err := p.Run(ctx); err != nil {
		return err
	}
	select {
	case <-ctx.Done():
		log.Info("asked to stop")
	case err = <-p.failed:
	}
	err = errors.Join(err, p.Close())
	log.Info("stopped")
	return err
}
