package exported

import (
	"fmt"

	"sparetone/progress"
	"sparetone/progress/tables"
)

// Owner says whose practice a line of an export is of. Every line has it, since a file may be put together from several.
type Owner struct {
	File  string `json:"file"`            // id of the progress file; exports of earlier versions have none
	Whose string `json:"whose,omitempty"` // name of the student; left out if none was given
}

// Owner reads whose practice a session is of.
func (o Object) Owner() (w Owner, err error) {
	if w.File, err = o.Text("file"); err == nil {
		w.Whose, err = o.Text("whose")
	}
	return w, err
}

// Check says what is wrong with whose practice a line is of.
func (w Owner) Check() error {
	for _, text := range []struct{ field, is string }{{"file", w.File}, {"whose", w.Whose}} {
		if len(text.is) > tables.LongestName || progress.Tidy(text.is) != text.is {
			return fmt.Errorf("%s is a line of %d bytes at most, without control characters", text.field, tables.LongestName)
		}
	}
	return nil
}
