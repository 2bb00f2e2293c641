package api

import (
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"time"

	"github.com/labstack/echo/v4"

	"linkrod/server/fault"
)

// read takes the request's one JSON message. Fields it doesn't know are left
// alone: a newer phone may send them.
func read[T any](c echo.Context) (message T, err error) {
	d := json.NewDecoder(c.Request().Body)
	if err := d.Decode(&message); err != nil {
		return message, unreadable(err)
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return message, unreadable(err)
	}
	return message, nil
}

func unreadable(err error) error {
	var status *echo.HTTPError // the body limit speaks echo
	if errors.As(err, &status) {
		return status
	}
	return fault.Wrap(fault.Invalid, "The message could not be read: it is cut off, or not in the form this server knows.", err)
}

// endless frees a stream from the server's write timeout, which is meant for
// answers that end. (The read timeout ends with the request's body.)
func endless(c echo.Context) error {
	return http.NewResponseController(c.Response()).SetWriteDeadline(time.Time{})
}
