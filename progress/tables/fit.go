package tables

import (
	"database/sql"
	"encoding/json"

	"sparetone/progress/memory"
)

// FitState returns how many answers a file has, and how many it had when the weights were last fitted.
func FitState(from Reader) (answers, tried int, err error) {
	err = from.QueryRow("SELECT (SELECT coalesce(max(n), 0) FROM answers), coalesce((SELECT answers FROM fit), 0)").Scan(&answers, &tried)
	return answers, tried, err
}

// Samples reads the answers of a file, but for those whose time is doubted, and the weights there are.
func Samples(from Reader) (s memory.Samples, w memory.Weights, err error) {
	d := memory.NewDerived(memory.StartWeights)
	if err := loadWeights(from, d); err != nil {
		return s, w, err
	}
	doubted, err := DoubtsAnew(from)
	if err != nil {
		return s, w, err
	}
	return s, d.Weights, Answers(from, func(k AnswerRow) error {
		if doubted.Of(k.N, k.At) {
			d.Doubt(k.N, k.Answer)
			return nil
		}
		s.Add(d, k.Answer, k.Day)
		d.Add(k.Answer, k.Day)
		return nil
	})
}

// KeepFit keeps the weights that were fitted to so many answers, and whether they are better than those before, unless
// other weights were kept in the meantime.
func KeepFit(tx *sql.Tx, answers int, before, w memory.Weights, better bool) error {
	// Another program, or the practice before, may have fitted them; what is derived follows from its weights.
	since := memory.NewDerived(memory.StartWeights)
	if err := loadWeights(tx, since); err != nil || since.Weights != before {
		return err
	}
	text := ""
	if w != memory.StartWeights {
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
	return Rebuild(tx)
}
