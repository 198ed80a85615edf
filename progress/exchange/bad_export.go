package exchange

import (
	"errors"
	"fmt"
)

// BadExport is the error of an export that is refused: it is at fault, and not a file or a disk of this machine.
type BadExport struct{ error }

// badExport says what is wrong with an export.
func badExport(format string, args ...any) error {
	return BadExport{fmt.Errorf(format+"; nothing was imported", args...)}
}

// The errors of a file that is something else.
var (
	errNoExport = BadExport{errors.New("this is no export of answers: one begins with a JSON object, or with the names of columns such as id,session,item")}
	errDatabase = BadExport{errors.New("this is a progress file itself, or another database: sparetone progress export --progress FILE writes what can be imported")}
	errNothing  = BadExport{errors.New("there is nothing in it")}
)
