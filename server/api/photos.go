package api

import (
	"errors"
	"io"
	"net/http"
	"strconv"
	"time"

	"github.com/labstack/echo/v4"

	"linkrod/server/fault"
	"linkrod/server/photo"
	"linkrod/sync"
)

// Photographs come up in pieces that survive a cut line, by the rules of the
// open tus protocol 1.0.0: POST announces one, HEAD asks how far it is, PATCH
// goes on from there. Its address is the SHA-256 of its bytes, so a picture
// sent twice is one, and one that was damaged on the way can't pass.

const (
	headLength = "Upload-Length"
	headOffset = "Upload-Offset"
	headTus    = "Tus-Resumable"
	tusVersion = "1.0.0"

	// photoChunk is the most one PATCH carries. The bytes of a longer one up
	// to here are kept; the phone asks how far it came.
	photoChunk = 1 << 20
)

// photoPolicy is what a picture that is opened by itself may do: nothing.
const photoPolicy = "default-src 'none'; sandbox"

// beginPhoto announces a photograph, or finds how far it is.
func (a *api) beginPhoto(c echo.Context) error {
	book, sum, err := photoOf(c)
	if err != nil {
		return err
	}
	length, err := headNumber(c, headLength)
	if err != nil {
		return err
	}
	state, err := a.Ledger.BeginPhoto(c.Request().Context(), book, caller(c).Account.ID, sum, length, time.Now().UnixMilli())
	if err != nil {
		return err
	}
	tell(c, state)
	c.Response().Header().Set(echo.HeaderLocation, c.Request().URL.Path)
	if state.Offset > 0 {
		return c.NoContent(http.StatusOK)
	}
	return c.NoContent(http.StatusCreated)
}

// photoState says how far a photograph is.
func (a *api) photoState(c echo.Context) error {
	book, sum, err := photoOf(c)
	if err != nil {
		return err
	}
	state, err := a.Ledger.Photo(c.Request().Context(), book, caller(c).Account.ID, sum)
	if err != nil {
		return err
	}
	tell(c, state)
	return c.NoContent(http.StatusOK)
}

// addToPhoto takes bytes from where the photograph stands. Each piece is on
// disk before the next is read, so that a line that is cut costs one piece at
// most, and what is left of the last one is kept too.
func (a *api) addToPhoto(c echo.Context) error {
	book, sum, err := photoOf(c)
	if err != nil {
		return err
	}
	offset, err := headNumber(c, headOffset)
	if err != nil {
		return err
	}
	ctx, who := c.Request().Context(), caller(c).Account.ID
	body := io.LimitReader(c.Request().Body, photoChunk)
	piece := make([]byte, photo.MaxPiece)
	for {
		n, cut := io.ReadFull(body, piece)
		// Also with nothing read: so that a wrong offset is said.
		state, err := a.Ledger.AddToPhoto(ctx, book, who, sum, offset, piece[:n], time.Now().UnixMilli())
		if err != nil {
			if fault.CodeOf(err) == fault.Conflict {
				tell(c, state)
			}
			return err
		}
		offset = state.Offset
		switch {
		case errors.Is(cut, io.EOF), errors.Is(cut, io.ErrUnexpectedEOF), state.Whole():
			tell(c, state)
			return c.NoContent(http.StatusNoContent)
		case cut != nil:
			return fault.Wrap(fault.Invalid, "The line was cut. What came is kept; ask how far it is and go on from there.", cut)
		}
	}
}

// photo hands out a whole photograph, piece by piece, so that a slow reader
// holds nothing up. It is not to be cached, though its name is its content: a
// browser would give it to whoever signs in next.
func (a *api) photo(c echo.Context) error {
	book, sum, err := photoOf(c)
	if err != nil {
		return err
	}
	ctx, who := c.Request().Context(), caller(c).Account.ID
	state, err := a.Ledger.Photo(ctx, book, who, sum)
	if err != nil {
		return err
	}
	piece, err := a.Ledger.PhotoPiece(ctx, book, who, sum, 0) // NotFound while it isn't whole
	if err != nil {
		return err
	}
	h := c.Response().Header()
	h.Set("Content-Security-Policy", photoPolicy)
	h.Set(echo.HeaderContentType, state.Kind)
	h.Set(echo.HeaderContentLength, strconv.FormatInt(state.Length, 10))
	c.Response().WriteHeader(http.StatusOK)
	for offset := int64(0); len(piece) > 0; {
		if _, err := c.Response().Write(piece); err != nil {
			return err
		}
		offset += int64(len(piece))
		if piece, err = a.Ledger.PhotoPiece(ctx, book, who, sum, offset); err != nil {
			return err
		}
	}
	return nil
}

func photoOf(c echo.Context) (book sync.ID, sum sync.Hash, err error) {
	c.Response().Header().Set(headTus, tusVersion)
	if book, err = bookOf(c); err != nil {
		return book, sum, err
	}
	if sum, err = sync.ParseHash(c.Param("sum")); err != nil {
		return book, sum, fault.Wrap(fault.NotFound, "There is no such photograph here.", err)
	}
	return book, sum, nil
}

func tell(c echo.Context, s photo.State) {
	c.Response().Header().Set(headOffset, strconv.FormatInt(s.Offset, 10))
	c.Response().Header().Set(headLength, strconv.FormatInt(s.Length, 10))
}

// headNumber reads a header that is a number of bytes.
func headNumber(c echo.Context, name string) (int64, error) {
	n, err := strconv.ParseInt(c.Request().Header.Get(name), 10, 64)
	if err != nil || n < 0 {
		return 0, fault.Wrap(fault.Invalid, name+" must be a number of bytes.", err)
	}
	return n, nil
}
