package api

import (
	"context"
	"net/http"
	"time"

	"github.com/labstack/echo/v4"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
)

var errNoDevice = fault.New(fault.NotFound, "There is no such device.")

type deviceReply struct {
	ID      sync.ID `json:"id"`
	Label   string  `json:"label"`
	Created int64   `json:"created"`
	Revoked int64   `json:"revoked,omitempty"`
}

func (a *api) devicesOf(ctx context.Context, account sync.ID) ([]deviceReply, error) {
	list, err := a.Ledger.Devices(ctx, account)
	devices := []deviceReply{}
	for _, d := range list {
		devices = append(devices, deviceReply{d.ID, d.Label, d.Created, d.Revoked})
	}
	return devices, err
}

// devices lists the caller's own.
func (a *api) devices(c echo.Context) error {
	list, err := a.devicesOf(c.Request().Context(), caller(c).Account.ID)
	if err != nil {
		return err
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		Devices []deviceReply `json:"devices"`
		This    sync.ID       `json:"this"` // the one that asks
	}{now(), list, caller(c).Device})
}

// removeDevice locks one of the caller's devices out, also the one that asks.
func (a *api) removeDevice(c echo.Context) error {
	device, err := idOf(c, "device", errNoDevice)
	if err != nil {
		return err
	}
	if err := a.Ledger.RemoveDevice(c.Request().Context(), caller(c).Account.ID, device, time.Now().UnixMilli()); err != nil {
		return err
	}
	return c.NoContent(http.StatusNoContent)
}

// lastFrom is what the server last had from a device: for a phone that finds
// its storage emptied.
func (a *api) lastFrom(c echo.Context) error {
	device, err := idOf(c, "device", errNoDevice)
	if err != nil {
		return err
	}
	list, err := a.Ledger.LastFrom(c.Request().Context(), caller(c).Account.ID, device)
	if err != nil {
		return err
	}
	if list == nil {
		list = []people.Last{}
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		Books []people.Last `json:"books"`
	}{now(), list})
}
