package progress

import (
	"database/sql"
	"encoding/json"
)

// fitState returns how many answers a file has, and how many it had when the weights were last fitted.
func fitState(from reader) (answers, tried int, err error) {
	err = from.QueryRow("SELECT (SELECT coalesce(max(n), 0) FROM answers), coalesce((SELECT answers FROM fit), 0)").Scan(&answers, &tried)
	return answers, tried, err
}

// samplesIn reads the answers of a file, but for those whose time is doubted, and the weights there are.
func samplesIn(from reader) (s samples, w Weights, err error) {
	d := newDerived(DefaultWeights)
	if err := loadWeights(from, d); err != nil {
		return s, w, err
	}
	doubted, err := doubtsIn(from)
	if err != nil {
		return s, w, err
	}
	return s, d.weights, answersIn(from, func(k kept) error {
		if doubted.of(k.n, k.At) {
			d.doubt(k.n, k.Answer)
			return nil
		}
		s.add(d, k.Answer, k.Day)
		d.add(k.Answer, k.Day)
		return nil
	})
}

// keepFit keeps the weights that were fitted to so many answers, and whether they are better than those before, unless
// other weights were kept in the meantime.
func keepFit(tx *sql.Tx, answers int, before, w Weights, better bool) error {
	// Another program, or the practice before, may have fitted them; what is derived follows from its weights.
	since := newDerived(DefaultWeights)
	if err := loadWeights(tx, since); err != nil || since.weights != before {
		return err
	}
	text := ""
	if w != DefaultWeights {
		bytes, err := json.Marshal(w)
		if err != nil {
			return err
		}
		text = string(bytes)
	}
	if _, err := tx.Exec("DELETE FROM fit"); err != nil {
		return err
	}
	if _, err := tx.Exec("INSERT INTO fit VALUES (?, ?)", answers, text); err != nil || !better {
		return err
	}
	return rebuild(tx)
}
