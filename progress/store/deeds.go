package store

import (
	"errors"
	"slices"

	"sparetone/progress/tables"
)

// keepDeed does something to the file, after whatever could not be done before. It is on the disk when
// keepDeed returns nil; if the file fails it is held on to, and tried again with the next one.
func (f *File) keepDeed(d deed) error {
	f.doing.Lock()
	defer f.doing.Unlock()
	f.deeds = append(f.deeds, d)
	return f.catchUp()
}

// catchUp does what is not done yet, in order, until the file fails. What no file would take is dropped.
func (f *File) catchUp() error {
	var wrong error
	for f.done < len(f.deeds) {
		err := f.change(f.deeds[f.done].do)
		if no := (tables.Refused{}); errors.As(err, &no) {
			wrong = err
			f.deeds = slices.Delete(f.deeds, f.done, f.done+1)
			continue
		}
		if err != nil {
			return err
		}
		f.done++
	}
	return wrong
}

// errInMemory is why practice in memory is at risk.
var errInMemory = errors.New("practice is in memory only")

// AtRisk counts the answers of this program that would be gone if it ended now, and says why: practice is
// in memory only, the file fails or is damaged, or it is no longer what lies at its path. The error is nil if there are
// none.
func (f *File) AtRisk() (answers int, why error) {
	f.doing.Lock()
	defer f.doing.Unlock()
	from := f.done
	switch {
	case f.Path() == "":
		from, why = 0, errInMemory
	case f.rotten != nil:
		from, why = 0, f.rotten
	case f.adrift != nil:
		from, why = 0, f.adrift
	case f.done < len(f.deeds):
		why = f.catchUp()
		from = f.done
	}
	for _, d := range f.deeds[from:] {
		switch {
		case d.answer:
			answers++
		case d.back:
			answers--
		}
	}
	if answers <= 0 {
		return 0, nil
	}
	return answers, why
}
