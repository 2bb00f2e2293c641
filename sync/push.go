package sync

import "encoding/json"

// Push is one batch of one device for one book, as it came in.
type Push struct {
	Device ID
	Sent   []Sent
}

// Sent is one entry of a batch. When Fault is set it is no entry: only its
// number, hash, device and book can be relied on, and Raw is what came.
type Sent struct {
	Entry Entry
	Fault *Fault
	Raw   []byte
}

// DecodePush reads the body of a push to a book: {"device", "entries"}. Fields
// it does not know are passed over, for messages grow by version.
//
// An entry that can't be read does not spoil the batch, as long as its number
// and hash can: it comes back with a Fault, to be set aside in its turn, so
// that one poisoned entry never blocks those behind it. Everything else is
// refused whole, nothing taken; the error is a *Fault.
func DecodePush(data []byte, book ID) (Push, error) {
	if len(data) > MaxBatchBytes {
		return Push{}, faultf(CodeSize, "This batch is %d bytes long; at most %d are taken at once. Send fewer entries at a time.", len(data), MaxBatchBytes)
	}
	fields, f := object(data)
	if f != nil {
		return Push{}, f
	}
	var p Push
	if err := text(p.Device.UnmarshalText)(orNull(fields["device"])); err != nil || p.Device.IsZero() {
		return Push{}, faultf(CodeShape, "The batch does not say which device it comes from.")
	}
	var list []json.RawMessage
	if err := json.Unmarshal(orNull(fields["entries"]), &list); err != nil || list == nil {
		return Push{}, faultf(CodeShape, "The batch has no list of entries.")
	}
	if len(list) > MaxBatchEntries {
		return Push{}, faultf(CodeSize, "This batch has %d entries; at most %d are taken at once. Send fewer at a time.", len(list), MaxBatchEntries)
	}
	for i, raw := range list {
		e, fault := readEntry(raw)
		if e.N == 0 || e.Hash.IsZero() {
			return Push{}, faultf(CodeShape, "Entry %d of the batch has no usable number or hash. Nothing of the batch was taken.", i+1)
		}
		if (!e.Device.IsZero() && e.Device != p.Device) || (!e.Book.IsZero() && e.Book != book) {
			return Push{}, faultf(CodeShape, "Entry %d of the batch belongs to another device or book. Nothing of the batch was taken.", i+1)
		}
		if fault == nil && (e.Device.IsZero() || e.Book.IsZero()) {
			fault = faultf(CodeShape, "Entry %d names no device or no book.", e.N)
		}
		if fault == nil {
			if err, bad := e.Verify().(*Fault); bad {
				fault = err
			}
		}
		e.Device, e.Book = p.Device, book
		p.Sent = append(p.Sent, Sent{Entry: e, Fault: fault, Raw: raw})
	}
	return p, nil
}

func orNull(raw json.RawMessage) []byte {
	if raw == nil {
		return []byte("null")
	}
	return raw
}
