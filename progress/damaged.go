package progress

import (
	"errors"
	"fmt"
)

// ErrDamaged is wrapped by the error of a file that is damaged, as far as it can be told from one that is
// something else.
var ErrDamaged = errors.New("the file is damaged")

// Damaged says what of a file is damaged.
func Damaged(format string, args ...any) error {
	return fmt.Errorf("%w: "+format, append([]any{ErrDamaged}, args...)...)
}
