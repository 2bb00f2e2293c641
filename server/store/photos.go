package store

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/server/photo"
	"linkrod/sync"
)

// photoRow is a photograph of a book, whole or on its way. Its name is the
// SHA-256 of its bytes, within the book: nobody can ask whether another book
// has it.
type photoRow struct {
	Length  int64   `json:"length"`
	Offset  int64   `json:"offset"`
	Kind    string  `json:"kind,omitempty"`
	Account sync.ID `json:"account"` // who began it
	Touched int64   `json:"touched"` // when a piece last came
}

func (r photoRow) state() photo.State {
	return photo.State{Length: r.Length, Offset: r.Offset, Kind: r.Kind}
}

// photoWait is how long a photograph that is not whole waits for the rest.
const photoWait = 90 * 24 * 60 * 60 * 1000 // ms

var (
	errNoPhoto   = fault.New(fault.NotFound, "There is no such photograph here.")
	errOffset    = fault.New(fault.Conflict, "The photograph has come to another place than that. Ask how far it is and go on from there.")
	errPhotoSize = fault.New(fault.TooLarge, "A photograph has 1 byte to 10 MB. Make it smaller.")
	errBookFull  = fault.New(fault.TooLarge, "The photographs of this book take up all the room they may. Ask the host.")
	errPhotoHash = fault.New(fault.Damaged, "The photograph came damaged: it is not the one it was announced as. It was thrown away; send it again from the beginning.")
)

// BeginPhoto announces a photograph by its SHA-256 and length, or finds how
// far it is. One that was begun with another length begins anew: only one of
// the two can end with the right sum.
func (d *DB) BeginPhoto(ctx context.Context, book, account sync.ID, sum sync.Hash, length, now int64) (state photo.State, err error) {
	err = d.engine.update(ctx, func(t tx) error {
		if _, err := inBook(t, book, account, people.Write); err != nil {
			return err
		}
		if length < 1 || length > photo.MaxBytes {
			return errPhotoSize
		}
		var row photoRow
		if _, err := read(t, tablePhotos, photoKey(book, sum), &row); err != nil {
			return err
		}
		if row.Kind != "" || row.Length == length {
			state = row.state()
			return nil
		}
		if err := dropPhoto(t, book, sum); err != nil {
			return err
		}
		if err := makeRoom(t, book, length, now); err != nil {
			return err
		}
		row = photoRow{Length: length, Account: account, Touched: now}
		state = row.state()
		return write(t, tablePhotos, photoKey(book, sum), row)
	})
	return state, err
}

// makeRoom forgets what nobody went on with, and counts the rest.
func makeRoom(t tx, book sync.ID, length, now int64) error {
	var stale []sync.Hash
	all := length
	err := t.scan(tablePhotos, book[:], nil, func(key, value []byte) (bool, error) {
		var r photoRow
		if err := decode(tablePhotos, key, value, &r); err != nil {
			return false, err
		}
		if r.Kind == "" && r.Touched < now-photoWait {
			stale = append(stale, sync.Hash(key[16:]))
		} else {
			all += r.Length
		}
		return true, nil
	})
	if err != nil {
		return err
	}
	for _, sum := range stale {
		if err := dropPhoto(t, book, sum); err != nil {
			return err
		}
	}
	if all > photo.MaxBook {
		return errBookFull
	}
	return nil
}

// Photo is how far a photograph is; NotFound when it was never begun.
func (d *DB) Photo(ctx context.Context, book, account sync.ID, sum sync.Hash) (state photo.State, err error) {
	err = d.engine.view(func(t tx) error {
		if _, err := inBook(t, book, account, people.Read); err != nil {
			return err
		}
		row, err := photoOf(t, book, sum)
		state = row.state()
		return err
	})
	return state, err
}

func photoOf(t tx, book sync.ID, sum sync.Hash) (row photoRow, err error) {
	ok, err := read(t, tablePhotos, photoKey(book, sum), &row)
	if err == nil && !ok {
		err = errNoPhoto
	}
	return row, err
}

// AddToPhoto appends a piece at offset, which must be where the photograph
// stands (Conflict otherwise, with the state as it is). With the last piece
// the whole is compared with its name: when it differs (Damaged), or is no
// picture (Invalid), all of it is gone.
func (d *DB) AddToPhoto(ctx context.Context, book, account sync.ID, sum sync.Hash, offset int64, piece []byte, now int64) (state photo.State, err error) {
	var wrong error // what was found out at the end, and is kept: the photograph is gone
	err = d.engine.update(ctx, func(t tx) error {
		wrong = nil
		if _, err := inBook(t, book, account, people.Write); err != nil {
			return err
		}
		row, err := photoOf(t, book, sum)
		if err != nil {
			return err
		}
		state = row.state()
		switch {
		case row.Kind != "" || row.Offset != offset:
			return errOffset
		case offset+int64(len(piece)) > row.Length:
			return errPhotoSize
		case len(piece) == 0:
			return nil
		}
		if err := t.put(tablePieces, pieceKey(book, sum, offset), piece); err != nil {
			return err
		}
		row.Offset, row.Touched = offset+int64(len(piece)), now
		if row.Offset == row.Length {
			if row.Kind, wrong = whole(t, book, sum); wrong != nil {
				state = photo.State{}
				return dropPhoto(t, book, sum)
			}
		}
		state = row.state()
		return write(t, tablePhotos, photoKey(book, sum), row)
	})
	return state, errors.Join(err, wrong)
}

// whole compares all pieces with their name and tells the kind of picture.
func whole(t tx, book sync.ID, sum sync.Hash) (kind string, err error) {
	var all bytes.Buffer
	err = t.scan(tablePieces, photoKey(book, sum), nil, func(_, piece []byte) (bool, error) {
		all.Write(piece)
		return true, nil
	})
	switch {
	case err != nil:
		return "", err
	case sha256.Sum256(all.Bytes()) != sum:
		return "", errPhotoHash
	}
	return photo.Kind(all.Bytes())
}

// PhotoPiece is the piece of a whole photograph that begins at offset; nil at
// the end. Pieces come one at a time so that a slow reader holds nothing up.
func (d *DB) PhotoPiece(ctx context.Context, book, account sync.ID, sum sync.Hash, offset int64) (piece []byte, err error) {
	err = d.engine.view(func(t tx) error {
		if _, err := inBook(t, book, account, people.Read); err != nil {
			return err
		}
		if row, err := photoOf(t, book, sum); err != nil {
			return err
		} else if row.Kind == "" {
			return errNoPhoto
		}
		piece = bytes.Clone(t.get(tablePieces, pieceKey(book, sum, offset)))
		return nil
	})
	return piece, err
}

func dropPhoto(t tx, book sync.ID, sum sync.Hash) error {
	var keys [][]byte
	err := t.scan(tablePieces, photoKey(book, sum), nil, func(key, _ []byte) (bool, error) {
		keys = append(keys, bytes.Clone(key))
		return true, nil
	})
	if err != nil {
		return err
	}
	for _, key := range keys {
		if err := t.remove(tablePieces, key); err != nil {
			return err
		}
	}
	return t.remove(tablePhotos, photoKey(book, sum))
}
