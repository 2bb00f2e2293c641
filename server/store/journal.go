package store

import (
	"context"
	"encoding/json"
	"fmt"

	"linkrod/server/people"
	"linkrod/sync"
)

// note writes one event into the journal, in the transaction that makes it
// true (J3).
func note(t tx, e people.Event) error {
	var last people.Line
	if key, value := t.last(tableJournal, nil); key != nil {
		if err := json.Unmarshal(value, &last); err != nil {
			return fmt.Errorf("store: journal, line %d: %w", lastNumber(key), err)
		}
	}
	line := last.Next(e)
	return write(t, tableJournal, putNumber(line.Seq), line)
}

// Journal returns at most limit lines before a place, newest first; before 0
// is the end. NotFound when who may not see it.
func (d *DB) Journal(ctx context.Context, who sync.ID, before uint64, limit int) (lines []people.Line, err error) {
	err = d.engine.view(func(t tx) error {
		if err := onInstance(t, who, people.SeePeople); err != nil {
			return err
		}
		if before == 0 {
			key, _ := t.last(tableJournal, nil)
			if key == nil {
				return nil
			}
			before = lastNumber(key) + 1
		}
		for seq := before - 1; seq > 0 && len(lines) < limit; seq-- {
			var line people.Line
			ok, err := read(t, tableJournal, putNumber(seq), &line)
			if err != nil || !ok {
				return err // beyond the end
			}
			lines = append(lines, line)
		}
		return nil
	})
	return lines, err
}
