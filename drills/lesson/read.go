package lesson

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
)

// longest is the size in bytes of the largest lesson file that is read.
const longest = 256 << 10

// Read reads a lesson in TOML. An error names the file, the line and column where there is one, what is wrong and what would be right.
func Read(name string, r io.Reader, beside Beside) (Lesson, error) {
	text, err := io.ReadAll(io.LimitReader(r, longest+1))
	if of := (*fs.PathError)(nil); errors.As(err, &of) {
		return Lesson{}, err // names the file by itself
	} else if err != nil {
		return Lesson{}, fmt.Errorf("%s: %w", name, err)
	}
	if len(text) > longest {
		return Lesson{}, fmt.Errorf("%s: larger than 256 KiB: this is no lesson file", name)
	}
	return parse(name, text, beside)
}

// Again reads a lesson that was taken, from what was kept of it.
func (l Lesson) Again() (Lesson, error) {
	return parse(l.Name, []byte(l.Text), func(name string) (string, error) {
		chart, ok := l.Charts[name]
		if !ok {
			return "", fs.ErrNotExist
		}
		return chart, nil
	})
}
