package progress

import "database/sql"

// Fit fits the memory model to the student where there are enough answers, and many more than when it
// was last tried. Weights of the student's own are kept only if they predict the latest answers,
// which the fit did not see, better than the weights before. It takes a second or two, some ten times
// in a student's life; End sees to it.
func (f *File) Fit() error {
	answers, tried, err := fitState(f.db)
	if err != nil || !fitDue(answers, tried) {
		return plain(err)
	}
	var before Weights
	var s samples
	err = f.read(func(tx *sql.Tx) (err error) {
		s, before, err = samplesIn(tx)
		return err
	})
	if err != nil {
		return err
	}
	w, better := s.fit(before)
	return f.change(func(tx *sql.Tx) error { return keepFit(tx, answers, before, w, better) })
}
