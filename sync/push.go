package sync

import "linkrod/sync/plain"

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
		return Push{}, say(CodeSize, "This batch is ", len(data), " bytes long; at most ", MaxBatchBytes, " are taken at once. Send fewer entries at a time.")
	}
	message, err := plain.Parse(data)
	if err != nil {
		return Push{}, torn()
	}
	var p Push
	if err := p.Device.UnmarshalText([]byte(message.Get("device").Text())); err != nil || p.Device.IsZero() {
		return Push{}, say(CodeShape, "The batch does not say which device it comes from.")
	}
	entries := message.Get("entries")
	if entries.Kind() != plain.List {
		return Push{}, say(CodeShape, "The batch has no list of entries.")
	}
	if n := len(entries.Items()); n > MaxBatchEntries {
		return Push{}, say(CodeSize, "This batch has ", n, " entries; at most ", MaxBatchEntries, " are taken at once. Send fewer at a time.")
	}
	for i, item := range entries.Items() {
		e, fault := readEntry(item)
		if e.N == 0 || e.Hash.IsZero() {
			return Push{}, say(CodeShape, "Entry ", i+1, " of the batch has no usable number or hash. Nothing of the batch was taken.")
		}
		if (!e.Device.IsZero() && e.Device != p.Device) || (!e.Book.IsZero() && e.Book != book) {
			return Push{}, say(CodeShape, "Entry ", i+1, " of the batch belongs to another device or book. Nothing of the batch was taken.")
		}
		if fault == nil && (e.Device.IsZero() || e.Book.IsZero()) {
			fault = say(CodeShape, "Entry ", e.N, " names no device or no book.")
		}
		if fault == nil {
			if err, bad := e.Verify().(*Fault); bad {
				fault = err
			}
		}
		e.Device, e.Book = p.Device, book
		p.Sent = append(p.Sent, Sent{Entry: e, Fault: fault, Raw: item.Raw()})
	}
	return p, nil
}
