package command

import (
	"errors"
	"fmt"
	"io/fs"
)

// Status is what the program ends with.
type Status int

const (
	Done       Status = iota // all that was asked
	InputWrong               // some input was wrong
	WrongCall                // the call was wrong: an option, a number of arguments
	Faulty                   // a file or a device failed; what lies above is of signals
)

// withStatus is an error that says how the program ends.
type withStatus struct {
	error
	status Status
}

func (e withStatus) Unwrap() error { return e.error }

// ErrReported ends the program with InputWrong after each wrong input has been reported on its own.
var ErrReported error = withStatus{errors.New("some input was wrong"), InputWrong}

// BadInput is the error of an input that is wrong.
func BadInput(err error) error { return withStatus{err, InputWrong} }

// Wrong is an error in how the program was called.
func Wrong(format string, args ...any) error {
	return withStatus{fmt.Errorf(format, args...), WrongCall}
}

// Fault is an error of a file or a device. An error that carries a status, such as that of a signal, keeps it.
func Fault(err error) error { return OrStatus(err, Faulty) }

// OrStatus gives an error a status, unless it carries one.
func OrStatus(err error, s Status) error {
	if err == nil || errors.As(err, &withStatus{}) {
		return err
	}
	return withStatus{err, s}
}

// StatusOf is what the program ends with after an error. What carries no status is of a file, such as standard output,
// or comes from the reading of the command line.
func StatusOf(err error) Status {
	var s withStatus
	switch {
	case err == nil:
		return Done
	case errors.As(err, &s):
		return s.status
	case errors.As(err, new(*fs.PathError)):
		return Faulty
	}
	return WrongCall
}
