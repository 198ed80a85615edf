package whole

import (
	"errors"
	"io/fs"
	"strings"
)

// Said is an error in words. One of a file begins with the file's name and not with what the system was asked to do with it: "loop.txt: no
// such file or directory", where "open loop.txt" would read as if that were to be done.
func Said(err error) string {
	text := err.Error()
	if of := (*fs.PathError)(nil); errors.As(err, &of) {
		text = strings.Replace(text, of.Op+" "+of.Path+": ", of.Path+": ", 1)
	}
	return text
}
