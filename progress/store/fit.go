package store

import (
	"database/sql"

	"sparetone/progress/memory"
	"sparetone/progress/tables"
)

// Fit fits the memory model to the student where there are enough answers, and many more than when it
// was last tried. Weights of the student's own are kept only if they predict the latest answers,
// which the fit did not see, better than the weights before. It takes a second or two, some ten times
// in a student's life; End sees to it.
func (f *File) Fit() error {
	answers, tried, err := tables.FitState(f.db)
	if err != nil || !memory.FitDue(answers, tried) {
		return tables.Plain(err)
	}
	var before memory.Weights
	var s memory.Samples
	err = f.read(func(tx *sql.Tx) (err error) {
		s, before, err = tables.Samples(tx)
		return err
	})
	if err != nil {
		return err
	}
	w, better := s.Fit(before)
	return f.change(func(tx *sql.Tx) error { return tables.KeepFit(tx, answers, before, w, better) })
}
