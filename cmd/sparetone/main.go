// Command sparetone is an ear and theory practice trainer for small fretted instruments. Alone it opens
// today's practice; everything a person can see, a script can read with --json.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"

	"charm.land/fang/v2"
	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/lookup"
	"sparetone/cmd/sparetone/records"
	"sparetone/cmd/sparetone/songs"
	"sparetone/cmd/sparetone/teaching"
	"sparetone/progress/whole"
	"sparetone/theory"
)

func main() {
	root, out := newRoot(), &command.Watched{File: os.Stdout}
	root.SetOut(out)
	root.SetArgs(helpCalled(os.Args[1:]))
	err := fang.Execute(command.EndedBySignals(context.Background()), root,
		fang.WithVersion(version()),
		fang.WithErrorHandler(func(w io.Writer, _ fang.Styles, err error) { printError(w, err) }),
	)
	if err == nil && out.Failed != nil {
		err = command.Fault(out.Failed)
		printError(os.Stderr, err)
	}
	os.Exit(int(command.StatusOf(err)))
}

// newRoot returns the command line as a whole.
func newRoot() *cobra.Command {
	practice := newPractice()
	root := &cobra.Command{
		Use:           "sparetone",
		Short:         "Ear and theory practice for small fretted instruments",
		Long:          "Ten minutes a day of hearing and seeing what each string does in a chord.\nAlone, sparetone opens today's practice.",
		SilenceUsage:  true,
		SilenceErrors: true,
		Args:          command.NoArgs,
		RunE:          practice.RunE,
	}
	root.Flags().AddFlagSet(practice.Flags())
	root.PersistentFlags().String("progress", "", "the progress file (else $SPARETONE_PROGRESS, else in your data folder)")
	root.SetFlagErrorFunc(func(_ *cobra.Command, err error) error { return command.Wrong("%s", optionError(err)) })
	root.SetHelpCommand(newHelp())
	root.AddCommand(practice, lookup.NewChord(), lookup.NewShape(), lookup.NewShapes(), lookup.NewSwaps(), newPlay(), songs.NewSong(), lookup.NewHear(), lookup.NewTunings(), newDrills(), records.NewProgress(), teaching.NewLesson(), newPaper(), teaching.NewClass(), newCompletion())
	return root
}

// numbersRead is what an option takes that is read by a function of strconv.
var numbersRead = map[string]string{"ParseInt": "a whole number", "ParseUint": "a whole number from 0 up", "ParseFloat": "a number", "ParseBool": "true or false"}

// optionError says what is wrong with an option, in words of ours where its number could not be read.
func optionError(err error) string {
	number, option := (*strconv.NumError)(nil), (*pflag.InvalidValueError)(nil)
	if errors.As(err, &number) && errors.As(err, &option) {
		return fmt.Sprintf("invalid argument %q for %q flag: it takes %s", option.GetValue(), "--"+option.GetFlag().Name, numbersRead[number.Func])
	}
	return err.Error()
}

// printError writes an error as one line. Of a signal nothing is said: whoever sent it knows.
func printError(w io.Writer, err error) {
	if err != command.ErrReported && !errors.As(err, &command.EndedBySignal{}) {
		fmt.Fprintln(w, "sparetone:", theory.Clean(whole.Said(err)))
	}
}
