package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"sparetone/theory"
)

// output writes what a command has to say: JSON, an object a line, or text.
type output struct {
	json bool
	enc  *json.Encoder
	text *bufio.Writer
	errs io.Writer
}

// newOutput returns the output of a command that has the option --json. Whatever is written, nothing in it moves a cursor
// or turns a line around.
func newOutput(cmd *cobra.Command) *output {
	asJSON, _ := cmd.Flags().GetBool("json")
	w := bufio.NewWriterSize(&still{to: stdout(cmd), json: asJSON}, 1<<16)
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	return &output{json: asJSON, enc: enc, text: w, errs: cmd.ErrOrStderr()}
}

// addJSON adds the option that newOutput reads.
func addJSON(cmd *cobra.Command) {
	cmd.Flags().Bool("json", false, "print one JSON object a line")
}

// object writes one JSON object on its line.
func (o *output) object(v any) error { return fault(o.enc.Encode(v)) }

// printf writes text.
func (o *output) printf(format string, args ...any) { fmt.Fprintf(o.text, format, args...) }

// remark writes what should be known of how a chord symbol was read, above what is said of the chord. In JSON it is a field.
func (o *output) remark(how remark) {
	if text := how.String(); text != "" && !o.json {
		o.printf("%s\n\n", text)
	}
}

// done writes out what is still held back.
func (o *output) done() error { return fault(o.text.Flush()) }

// refused is what takes the place of a result for an input that was wrong.
type refused struct {
	Input string `json:"input"`
	Error string `json:"error"`
}

// refuse tells of an input that was refused.
func (o *output) refuse(input string, err error) error {
	if o.json {
		return o.object(refused{strings.ToValidUTF8(input, "\ufffd"), err.Error()})
	}
	_, err = fmt.Fprintln(o.errs, "sparetone:", theory.Clean(fmt.Sprintf("%s: %v", input, err)))
	return fault(err)
}

// longestLine is the longest line, in bytes, that is read from standard input.
const longestLine = 1 << 16

// each does something for every input: the arguments, and for an argument - the lines of standard
// input. An input that is wrong is reported and the rest goes on; the program then ends with
// inputWrong.
func each(cmd *cobra.Command, args []string, do func(o *output, input string) error) error {
	if len(args) == 0 {
		_, wants, _ := strings.Cut(cmd.Use, " ")
		return callWrong("%s needs %s, or - to read them from standard input, one a line", cmd.CommandPath(), wants)
	}
	o := newOutput(cmd)
	var bad bool
	one := func(input string) error {
		err := do(o, input)
		if err == nil || statusOf(err) >= faulty {
			return err
		}
		bad = true
		if o.json {
			return o.object(refused{strings.ToValidUTF8(input, "\ufffd"), err.Error()})
		}
		_, err = fmt.Fprintln(o.errs, "sparetone:", theory.Clean(err.Error()))
		return fault(err)
	}
	for _, a := range args {
		if a != "-" {
			if err := one(a); err != nil {
				return err
			}
			continue
		}
		if err := inputLines(stdin(cmd), one); err != nil {
			return err
		}
	}
	if err := o.done(); err != nil {
		return err
	}
	if bad {
		return errReported
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
			return fault(fmt.Errorf("standard input: %w", err))
		}
	}
}
