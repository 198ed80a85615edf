package exchange

import (
	"encoding/hex"
	"slices"

	"sparetone/progress/tables"
)

// takeBack takes back here what was taken back elsewhere, or came back with an older copy of this file.
func (a *aligning) takeBack() error {
	for _, t := range a.good {
		for _, id := range t.File.undone {
			if a.undone[id] {
				continue
			}
			a.undone[id] = true
			if err := tables.KeepSetting(a.tx, undoneKey+id, "yes"); err != nil {
				return err
			}
			if one, err := hex.DecodeString(id); err == nil && len(one) == 16 { // an answer, and no import
				if err := TakeBackAnswer(a.tx, [16]byte(one)); err != nil {
					return err
				}
			}
		}
	}
	notes, err := notesIn(a.tx)
	if err != nil {
		return err
	}
	for _, n := range notes {
		if !a.undone[n.id] {
			continue
		}
		if err := n.takeBack(a.tx); err != nil {
			return err
		}
		a.done.TakenBack++
	}
	return nil
}

// noteImports takes over the notes of imports that other machines have.
func (a *aligning) noteImports() error {
	notes, err := notesIn(a.tx)
	if err != nil {
		return err
	}
	met := map[string]bool{}
	for _, n := range notes {
		met[n.id] = true
	}
	var came []noteOf
	for _, t := range a.good {
		for _, n := range t.File.imports {
			if !met[n.id] && !a.undone[n.id] {
				met[n.id] = true
				came = append(came, n)
			}
		}
	}
	slices.SortFunc(came, func(n, m noteOf) int { return compareNotes(m, n) }) // the earliest first
	for _, n := range came {
		n.note.Copy, n.note.Was = "", nil // whose this file is does not depend on it
		if err := n.note.keep(a.tx, n.id); err != nil {
			return err
		}
	}
	return nil
}
