package command

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"time"
	"unicode/utf8"

	"github.com/charmbracelet/x/term"
	"github.com/spf13/cobra"

	"sparetone/theory"
)

// longestLine is the longest line, in bytes, that is read from standard input.
const longestLine = 1 << 16

// moved is what came of a read or a write.
type moved struct {
	n   int
	err error
}

// patientReader reads from a stream that may wait for ever, until a context ends.
type patientReader struct {
	ctx     context.Context
	from    io.Reader
	buffer  []byte
	waiting chan moved // of a read that has not come back
	rest    []byte     // read and not handed on
	err     error      // came with the rest
}

// Interruptible returns a reader of a stream that ends with the context of a command.
func Interruptible(ctx context.Context, from io.Reader) io.Reader {
	return &patientReader{ctx: ctx, from: from, buffer: make([]byte, longestLine)}
}

func (r *patientReader) Read(p []byte) (int, error) {
	if len(r.rest) == 0 {
		if r.waiting == nil {
			r.waiting = make(chan moved, 1)
			go func(back chan<- moved) {
				n, err := r.from.Read(r.buffer)
				back <- moved{n, err}
			}(r.waiting)
		}
		select {
		case <-r.ctx.Done():
			return 0, context.Cause(r.ctx)
		case got := <-r.waiting:
			r.waiting, r.rest, r.err = nil, r.buffer[:got.n], got.err
		}
	}
	n := copy(p, r.rest)
	r.rest = r.rest[n:]
	if len(r.rest) > 0 {
		return n, nil
	}
	err := r.err
	r.err = nil
	return n, err
}

// isFolder is the error of a folder where a file was to be named.
func isFolder(path string) error {
	return Fault(fmt.Errorf("%s is a folder; name a file", theory.Clean(path)))
}

// OpenInput opens a file that a person named. A pipe that nobody writes to is waited for until the context ends.
func OpenInput(ctx context.Context, path string) (*os.File, error) {
	type opened struct {
		file *os.File
		err  error
	}
	back := make(chan opened, 1)
	go func() {
		file, err := os.Open(path)
		back <- opened{file, err}
	}()
	select {
	case <-ctx.Done():
		return nil, context.Cause(ctx)
	case got := <-back:
		if got.err != nil {
			return nil, got.err
		}
		if about, err := got.file.Stat(); err == nil && about.IsDir() {
			got.file.Close()
			return nil, isFolder(path)
		}
		return got.file, nil
	}
}

// InterruptibleFile is a file that is read until a context ends.
type InterruptibleFile struct {
	io.Reader
	io.Closer
}

// patientWriter writes to a stream that may be full for ever, until a context ends.
type patientWriter struct {
	ctx context.Context
	to  io.Writer
}

// lastWords is how long after a signal a stream that takes text may still be written to.
const lastWords = graceAfterSignal / 2

// write returns a writer to a stream that ends shortly after a context has.
func write(ctx context.Context, to io.Writer) io.Writer {
	late, end := context.WithCancelCause(context.WithoutCancel(ctx))
	context.AfterFunc(ctx, func() {
		time.AfterFunc(lastWords, func() { end(context.Cause(ctx)) })
	})
	return patientWriter{late, to}
}

func (w patientWriter) Write(p []byte) (int, error) {
	back := make(chan moved, 1)
	go func(own []byte) {
		n, err := w.to.Write(own)
		back <- moved{n, err}
	}(bytes.Clone(p))
	select {
	case <-w.ctx.Done():
		return 0, context.Cause(w.ctx)
	case done := <-back:
		return done.n, done.err
	}
}

// Stdout returns where a command writes, which a context may end.
func Stdout(cmd *cobra.Command) io.Writer { return write(cmd.Context(), cmd.OutOrStdout()) }

// Stdin returns where a command reads, which a context may end.
func Stdin(cmd *cobra.Command) io.Reader { return Interruptible(cmd.Context(), cmd.InOrStdin()) }

// SafeText writes text of which nothing moves a cursor or a line: ends of lines stay, and of what else theory.Moves
// nothing is left in text, and in JSON its escape. What is not UTF-8 is left out.
type SafeText struct {
	To     io.Writer
	AsJSON bool
	rest   []byte // the beginning of a character that has not come whole
}

func (w *SafeText) Write(p []byte) (int, error) {
	if len(w.rest) == 0 && isPrinting(p) {
		return w.To.Write(p)
	}
	text := append(w.rest, p...)
	out := make([]byte, 0, len(text))
	for len(text) > 0 {
		if !utf8.FullRune(text) {
			break
		}
		r, size := utf8.DecodeRune(text)
		switch {
		case r == '\n':
			out = append(out, '\n')
		case r == utf8.RuneError && size == 1:
		case theory.Moves(r) && w.AsJSON:
			out = append(out, escaped(r)...)
		case theory.Moves(r):
		default:
			out = append(out, text[:size]...)
		}
		text = text[size:]
	}
	w.rest = bytes.Clone(text)
	if _, err := w.To.Write(out); err != nil {
		return 0, err
	}
	return len(p), nil
}

// isPrinting reports whether a text is of ASCII that prints and ends of lines alone, as most are.
func isPrinting(text []byte) bool {
	for _, b := range text {
		if (b < ' ' || b > '~') && b != '\n' {
			return false
		}
	}
	return true
}

// escaped writes a rune of the first 65,536 as JSON escapes it.
func escaped(r rune) []byte {
	const digits = "0123456789abcdef"
	return []byte{'\\', 'u', digits[r>>12&15], digits[r>>8&15], digits[r>>4&15], digits[r&15]}
}

// Watched is standard output, which remembers that it could not be written to: what prints help does not say so.
type Watched struct {
	*os.File
	Failed error
}

func (w *Watched) Write(p []byte) (int, error) {
	n, err := w.File.Write(p)
	if err != nil && w.Failed == nil {
		w.Failed = err
	}
	return n, err
}

// WriteString is how io.WriteString would pass Write by.
func (w *Watched) WriteString(s string) (int, error) { return w.Write([]byte(s)) }

// IsTerminal reports whether a stream is a terminal.
func IsTerminal(stream any) bool {
	f, ok := stream.(interface{ Fd() uintptr })
	return ok && term.IsTerminal(f.Fd())
}
