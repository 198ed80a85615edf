package exchange

import (
	"fmt"
	"slices"

	"sparetone/progress"
	"sparetone/progress/exported"
	"sparetone/progress/tables"
)

// Whose practice an export holds is said on every line. What comes into a file that is empty makes that file go on from where
// the other one is: it gets its id and its name, so a player who has moved to another machine, and a teacher who keeps a file
// for each student, are asked nothing then or later. Into a file that holds practice, another's is taken only as the student's
// own; once it was, it is known to be.

// AnothersError is the error of an export that holds the practice of another progress file.
type AnothersError struct {
	Whose   progress.Whose
	Answers int // that it would have added
}

func (e *AnothersError) Error() string {
	if e.Whose.Name != "" {
		return fmt.Sprintf("this is the practice of %s and not yours, %d answers that are new here; nothing was imported", progress.Short(e.Whose.Name), e.Answers)
	}
	return fmt.Sprintf("this is the practice of another progress file than yours, %d answers that are new here; nothing was imported", e.Answers)
}

// ownerOf notes whose practice an object is of.
func (in *importing) ownerOf(o exported.Object) error {
	w, err := o.Owner()
	if err != nil {
		return err
	}
	return in.isOf(w)
}

// isOf notes whose practice a line is of.
func (in *importing) isOf(w exported.Owner) error {
	if err := w.Check(); err != nil {
		return err
	}
	if w.File != "" && !slices.ContainsFunc(in.whose, func(met progress.Whose) bool { return met.ID == w.File }) {
		in.whose = append(in.whose, progress.Whose{ID: w.File, Name: w.Whose})
	}
	return nil
}

// settle finds out whether an export is the student's own, and makes it so if it may. Last is the number of the last answer
// before it. Where other machines know the file by its id, it is no longer to go on from another.
func (in *importing) settle(done *Imported, last int64, other bool) error {
	alike, err := tables.Setting(in.tx, tables.AlikeKey)
	if err != nil {
		return err
	}
	empty := last == 0 && alike == ""
	done.Of = in.whose
	if len(done.Of) == 0 && in.first != nil { // it is of an earlier version, and so was the file
		done.Of = []progress.Whose{{ID: tables.IdFrom(in.first)}}
	}
	for i, w := range done.Of {
		mine, err := tables.IsMine(in.tx, w.ID)
		switch {
		case err != nil:
			return err
		case mine:
		case empty && i == 0 && done.Added > 0:
			done.Goes = true
			if err := in.goOnFrom(w); err != nil {
				return err
			}
		case other:
			done.Joined = append(done.Joined, w)
			in.note.Mine = append(in.note.Mine, w.ID)
			if err := tables.SetOrClear(in.tx, tables.MineKey+w.ID, w.String()); err != nil {
				return err
			}
		default:
			return &AnothersError{w, done.Added}
		}
	}
	return nil
}

// goOnFrom makes a file that was empty go on from where another one is.
func (in *importing) goOnFrom(w progress.Whose) error {
	was, err := tables.WhoseIs(in.tx)
	if err != nil {
		return err
	}
	name := w.Name
	if name == "" {
		name = was.Name
	}
	in.note.Was, in.note.Name = &was, name
	if err := tables.SetOrClear(in.tx, tables.IdKey, w.ID); err != nil {
		return err
	}
	return tables.SetOrClear(in.tx, tables.NameKey, name)
}
