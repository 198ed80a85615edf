package exported

import (
	"errors"
	"fmt"
)

// BadExport is the error of an export that is refused: it is at fault, and not a file or a disk of this machine.
type BadExport struct{ error }

// Refuse returns the BadExport that says what is wrong, and that nothing was imported.
func Refuse(format string, args ...any) error {
	return BadExport{fmt.Errorf(format+"; nothing was imported", args...)}
}

// The errors of a file that is something else.
var (
	ErrNoExport = BadExport{errors.New("this is no export of answers: one begins with a JSON object, or with the names of columns such as id,session,item")}
	ErrDatabase = BadExport{errors.New("this is a progress file itself, or another database: sparetone progress export --progress FILE writes what can be imported")}
	ErrNothing  = BadExport{errors.New("there is nothing in it")}
)

// LineError is the error of a line of an export: it is at fault, and not a file or a disk of this machine.
type LineError struct {
	Line int // from 1
	Says error
}

func (e LineError) Error() string { return fmt.Sprintf("line %d: %v", e.Line, e.Says) }
func (e LineError) Unwrap() error { return e.Says }
