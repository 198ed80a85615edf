package records

import (
	"errors"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/progress/store"
	"sparetone/theory"
)

// BackupRow is where a copy lies, as --json prints it.
type BackupRow struct {
	Path string `json:"path"`
}

func newBackup() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "backup [FILE]",
		Short: "Copy the progress file, beside it or to a file that is not there yet",
		Args:  command.AtMostOne,
		RunE: func(cmd *cobra.Command, args []string) (err error) {
			file, err := command.OpenThere(cmd)
			if err != nil {
				return err
			}
			defer func() { err = errors.Join(err, command.Fault(file.Close())) }()
			path := ""
			if len(args) > 0 {
				path, err = args[0], file.SaveAs(args[0])
			} else {
				path, err = file.Backup()
			}
			if err != nil {
				return command.Fault(err)
			}
			o := command.NewOutput(cmd)
			o.Row(BackupRow{path}, "%s\n", theory.Clean(path))
			return o.Done()
		},
	}
	command.AddJSON(cmd)
	return cmd
}

// CheckRow is what a sound progress file holds, as --json prints it.
type CheckRow struct {
	Answers  int  `json:"answers"`
	Items    int  `json:"items"`
	Sessions int  `json:"sessions"`
	Songs    int  `json:"songs"`
	Doubted  int  `json:"doubted"`  // answers that were given while the clock was wrong; they are kept, but do not count
	Misfiled int  `json:"misfiled"` // items under a drill they do not belong to; the next practice puts that right
	Stale    bool `json:"stale"`    // what is worked out from the answers does not follow from them; the next practice makes it again
}

func newCheck() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "check",
		Short: "Prove that the progress file is sound",
		Args:  command.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return command.ReadThere(cmd, func(file *store.File) error { return showHealth(cmd, file) })
		},
	}
	command.AddJSON(cmd)
	return cmd
}

func showHealth(cmd *cobra.Command, file *store.File) error {
	h, err := file.Check()
	if err != nil {
		return command.Fault(err)
	}
	doubted, err := file.Doubted()
	if err != nil {
		return command.Fault(err)
	}
	o := command.NewOutput(cmd)
	if o.AsJSON {
		o.Object(CheckRow{h.Answers, h.Items, h.Sessions, h.Songs, doubted, len(h.Misfiled), h.Stale})
		return o.Done()
	}
	o.Printf("Sound: %s of %s in %s.\n", command.Count(h.Answers, "answer"), command.Count(h.Items, "item"), command.Count(h.Sessions, "session"))
	if h.Songs > 0 {
		o.Printf("%s of your own.\n", command.Count(h.Songs, "song"))
	}
	if doubted > 0 {
		o.Printf("%s\n", SayDoubted(doubted))
	}
	if n := len(h.Misfiled); n > 0 {
		o.Printf("%s under another drill than its own, such as %s; the next practice puts that right.\n", command.Count(n, "item"), theory.Clean(h.Misfiled[0]))
	}
	if h.Stale {
		o.Printf("What is worked out from the answers does not follow from them; the next practice makes it again.\n")
	}
	return o.Done()
}
