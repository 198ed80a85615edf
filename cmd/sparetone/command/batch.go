package command

import (
	"bufio"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"sparetone/theory"
)

// Output writes what a command has to say: JSON, an object a line, or text.
type Output struct {
	AsJSON bool
	enc    *json.Encoder
	Text   *bufio.Writer
	Errs   io.Writer
	failed error // the first error of an object; nil as long as there is none
}

// NewOutput returns the output of a command that has the option --json. Whatever is written, nothing in it moves a cursor
// or turns a line around.
func NewOutput(cmd *cobra.Command) *Output {
	asJSON, _ := cmd.Flags().GetBool("json")
	w := bufio.NewWriterSize(&SafeText{To: Stdout(cmd), AsJSON: asJSON}, 1<<16)
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	return &Output{AsJSON: asJSON, enc: enc, Text: w, Errs: cmd.ErrOrStderr()}
}

// AddJSON adds the option that NewOutput reads.
func AddJSON(cmd *cobra.Command) {
	cmd.Flags().Bool("json", false, "print one JSON object a line")
}

// Object writes one JSON object on its line. Its error is returned by Done as well, so a command of few rows need not look at it.
func (o *Output) Object(v any) error {
	if o.failed == nil {
		o.failed = Fault(o.enc.Encode(v))
	}
	return o.failed
}

// Row writes a row as an object where JSON is asked for, else as text.
func (o *Output) Row(row any, format string, args ...any) error {
	if o.AsJSON {
		return o.Object(row)
	}
	o.Printf(format, args...)
	return nil
}

// Printf writes text.
func (o *Output) Printf(format string, args ...any) { fmt.Fprintf(o.Text, format, args...) }

// Remark writes what should be known of how a chord symbol was read, above what is said of the chord. In JSON it is a field.
func (o *Output) Remark(how Remark) {
	if text := how.String(); text != "" && !o.AsJSON {
		o.Printf("%s\n\n", text)
	}
}

// Done writes out what is still held back, and returns the first error of all that was written.
func (o *Output) Done() error { return cmp.Or(o.failed, Fault(o.Text.Flush())) }

// Refused is what takes the place of a result for an input that was wrong.
type Refused struct {
	Input string `json:"input"`
	Error string `json:"error"`
}

// Refuse tells of an input that was refused.
func (o *Output) Refuse(input string, err error) error {
	if o.AsJSON {
		return o.Object(Refused{strings.ToValidUTF8(input, "\ufffd"), err.Error()})
	}
	_, err = fmt.Fprintln(o.Errs, "sparetone:", theory.Clean(fmt.Sprintf("%s: %v", input, err)))
	return Fault(err)
}

// Each does something for every input: the arguments, and for an argument - the lines of standard
// input. An input that is wrong is reported and the rest goes on; the program then ends with
// InputWrong.
func Each(cmd *cobra.Command, args []string, do func(o *Output, input string) error) error {
	if len(args) == 0 {
		_, wants, _ := strings.Cut(cmd.Use, " ")
		return Wrong("%s needs %s, or - to read them from standard input, one a line", cmd.CommandPath(), wants)
	}
	o := NewOutput(cmd)
	var bad bool
	one := func(input string) error {
		err := do(o, input)
		if err == nil || StatusOf(err) >= Faulty {
			return err
		}
		bad = true
		if o.AsJSON {
			return o.Object(Refused{strings.ToValidUTF8(input, "\ufffd"), err.Error()})
		}
		_, err = fmt.Fprintln(o.Errs, "sparetone:", theory.Clean(err.Error()))
		return Fault(err)
	}
	for _, a := range args {
		if a != "-" {
			if err := one(a); err != nil {
				return err
			}
			continue
		}
		if err := inputLines(Stdin(cmd), one); err != nil {
			return err
		}
	}
	if err := o.Done(); err != nil {
		return err
	}
	if bad {
		return ErrReported
	}
	return nil
}

// inputLines hands on each line that is not blank. A line that is too long is handed on cut short, to be
// refused, and the rest of it passed over.
func inputLines(r io.Reader, do func(string) error) error {
	in := bufio.NewReaderSize(r, longestLine)
	for {
		line, err := in.ReadSlice('\n')
		text := strings.TrimRight(string(line), "\r\n")
		for errors.Is(err, bufio.ErrBufferFull) {
			_, err = in.ReadSlice('\n')
		}
		if strings.TrimSpace(text) != "" {
			if err := do(text); err != nil {
				return err
			}
		}
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return Fault(fmt.Errorf("standard input: %w", err))
		}
	}
}
