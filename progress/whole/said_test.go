package whole

import (
	"errors"
	"fmt"
	"io/fs"
	"testing"
)

// What went wrong with a file begins with its name, also within other words; all else stays.
func TestSaid(t *testing.T) {
	missing := &fs.PathError{Op: "open", Path: "loop.txt", Err: fs.ErrNotExist}
	for _, row := range []struct {
		err  error
		want string
	}{
		{missing, "loop.txt: file does not exist"},
		{fmt.Errorf("--roster: %w", missing), "--roster: loop.txt: file does not exist"},
		{&fs.PathError{Op: "read", Path: "open", Err: errors.New("is a directory")}, "open: is a directory"},
		{errors.New("open the door"), "open the door"},
	} {
		if got := Said(row.err); got != row.want {
			t.Errorf("%q, want %q", got, row.want)
		}
	}
}
