package main

import (
	"errors"
	"fmt"
	"strings"
)

// status is what the program ends with.
type status int

const (
	done       status = iota // all that was asked
	inputWrong               // some input was wrong
	wrongCall                // the call was wrong: an option, a number of arguments
	faulty                   // a file or a device failed
)

// withStatus is an error that says how the program ends.
type withStatus struct {
	error
	status status
}

func (e withStatus) Unwrap() error { return e.error }

// errReported ends the program with inputWrong after each wrong input has been reported on its own.
var errReported error = withStatus{errors.New("some input was wrong"), inputWrong}

// callWrong is an error in how the program was called.
func callWrong(format string, args ...any) error {
	return withStatus{fmt.Errorf(format, args...), wrongCall}
}

// fault is an error of a file or a device.
func fault(err error) error {
	if err == nil {
		return nil
	}
	return withStatus{err, faulty}
}

// statusOf is what the program ends with after an error. What carries no status comes from the reading
// of the command line.
func statusOf(err error) status {
	if err == nil {
		return done
	}
	if s := (withStatus{}); errors.As(err, &s) {
		return s.status
	}
	return wrongCall
}

// printable takes out of a text what could move a cursor or ring a bell, and joins its lines.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t':
			return ' '
		case r < ' ' || r >= 0x7f && r <= 0x9f || r == '\ufffd':
			return -1
		}
		return r
	}, s)
}
