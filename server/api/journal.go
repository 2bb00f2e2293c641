package api

import (
	"context"
	"crypto/rand"
	"fmt"
	"log/slog"

	"github.com/labstack/echo/v4"
	"github.com/labstack/echo/v4/middleware"

	"linkrod/server/auth"
	"linkrod/server/fault"
)

// requestID names each request in the log and in the answer. It is always
// ours: what a client sends under that name could be anything.
func requestID(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		c.Request().Header.Del(echo.HeaderXRequestID)
		c.Response().Header().Set(echo.HeaderXRequestID, rand.Text())
		return next(c)
	}
}

// journal writes one line per request: what was asked, how it ended, who
// asked. No query, body, header or cookie is in it, so no secret is. The
// app's own files are left to debug level.
func (a *api) journal() echo.MiddlewareFunc {
	return middleware.RequestLoggerWithConfig(middleware.RequestLoggerConfig{
		HandleError:  true, // so that the status logged is the status sent
		LogMethod:    true,
		LogURIPath:   true,
		LogRoutePath: true,
		LogStatus:    true,
		LogLatency:   true,
		LogRemoteIP:  true,
		LogRequestID: true,
		LogError:     true,
		LogValuesFunc: func(c echo.Context, v middleware.RequestLoggerValues) error {
			level := slog.LevelInfo
			attrs := []slog.Attr{
				slog.String("method", v.Method),
				slog.String("path", v.URIPath),
				slog.Int("status", v.Status),
				slog.Duration("took", v.Latency),
				slog.String("from", v.RemoteIP),
				slog.String("request", v.RequestID),
			}
			if who, ok := c.Get(callerKey).(auth.Caller); ok {
				attrs = append(attrs, slog.String("account", who.Account.ID.String()))
			}
			switch {
			case v.Error != nil && fault.CodeOf(faultOf(v.Error)) == fault.Internal:
				level = slog.LevelError
				attrs = append(attrs, slog.String("error", v.Error.Error()))
			case v.Error != nil:
				attrs = append(attrs, slog.String("error", v.Error.Error()))
			case v.RoutePath == "/*" || v.RoutePath == "/healthz":
				level = slog.LevelDebug
			}
			a.Log.LogAttrs(c.Request().Context(), level, "request", attrs...)
			return nil
		},
	})
}

// recover turns a panic into an internal error with its stack in the log: one
// bad request must not take the shop's server down.
func (a *api) recover() echo.MiddlewareFunc {
	return middleware.RecoverWithConfig(middleware.RecoverConfig{
		DisableStackAll:     true,
		DisableErrorHandler: true,
		LogErrorFunc: func(c echo.Context, err error, stack []byte) error {
			a.Log.LogAttrs(context.WithoutCancel(c.Request().Context()), slog.LevelError, "panic",
				slog.String("path", c.Request().URL.Path), slog.String("stack", string(stack)))
			return fmt.Errorf("panic: %w", err)
		},
	})
}
