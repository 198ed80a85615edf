package teaching

import (
	"errors"
	"io/fs"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/drills/practice"
	"sparetone/drills/practice/setting"
	"sparetone/progress/store"
	"sparetone/theory"
)

func newHandIn() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "hand-in FILE",
		Short: "Write a file for the teacher: name, lessons, days, minutes and answers, and nothing else",
		Long: "Write one file for the teacher: the name that progress name gave, if there is one, the lessons that were taken and how much of\n" +
			"each is done, and every session and answer. Settings stay behind. Nothing is sent.",
		Example: "  sparetone progress name Ann\n  sparetone lesson hand-in ann.jsonl",
	}
	command.AddJSON(cmd)
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		if len(args) != 1 {
			return command.Wrong("%s needs one FILE to write to", cmd.CommandPath())
		}
		if err := command.ProgressIsThere(cmd); err != nil {
			return err
		}
		return command.ReadProgress(cmd, func(f *store.File) error {
			s := setting.Read(f)
			on, err := s.Instrument()
			if err != nil {
				return command.Fault(err)
			}
			of, err := practice.HandIn(f, on, args[0])
			if errors.Is(err, fs.ErrExist) {
				return command.Wrong("%s is there already: name another file", theory.Clean(args[0]))
			} else if err != nil {
				return command.Fault(err)
			}
			o := command.NewOutput(cmd)
			if o.AsJSON {
				o.Object(of)
				return o.Done()
			}
			o.Printf("%s:\n", theory.Clean(args[0]))
			for _, l := range practice.SaysHandedIn(of) {
				o.Printf("%s\n", l.Screen())
			}
			return o.Done()
		})
	}
	return cmd
}
