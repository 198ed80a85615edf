package main

import (
	"errors"
	"fmt"
	"io/fs"
)

// status is what the program ends with.
type status int

const (
	done       status = iota // all that was asked
	inputWrong               // some input was wrong
	wrongCall                // the call was wrong: an option, a number of arguments
	faulty                   // a file or a device failed; what lies above is of signals
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

// fault is an error of a file or a device. An error that carries a status, such as that of a signal, keeps it.
func fault(err error) error { return orStatus(err, faulty) }

// orStatus gives an error a status, unless it carries one.
func orStatus(err error, s status) error {
	if err == nil || errors.As(err, &withStatus{}) {
		return err
	}
	return withStatus{err, s}
}

// statusOf is what the program ends with after an error. What carries no status is of a file, such as standard output,
// or comes from the reading of the command line.
func statusOf(err error) status {
	var s withStatus
	switch {
	case err == nil:
		return done
	case errors.As(err, &s):
		return s.status
	case errors.As(err, new(*fs.PathError)):
		return faulty
	}
	return wrongCall
}
