package main

import (
	"errors"

	"github.com/spf13/cobra"

	"sparetone/progress/store"
	"sparetone/theory"
)

// backupRow is where a copy lies, as --json prints it.
type backupRow struct {
	Path string `json:"path"`
}

func newBackup() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "backup [FILE]",
		Short: "Copy the progress file, beside it or to a file that is not there yet",
		Args:  atMostOne,
		RunE: func(cmd *cobra.Command, args []string) (err error) {
			file, err := openThere(cmd)
			if err != nil {
				return err
			}
			defer func() { err = errors.Join(err, fault(file.Close())) }()
			path := ""
			if len(args) > 0 {
				path, err = args[0], file.SaveAs(args[0])
			} else {
				path, err = file.Backup()
			}
			if err != nil {
				return fault(err)
			}
			o := newOutput(cmd)
			if !o.json {
				o.printf("%s\n", theory.Clean(path))
			} else if err := o.object(backupRow{path}); err != nil {
				return err
			}
			return o.done()
		},
	}
	addJSON(cmd)
	return cmd
}

// checkRow is what a sound progress file holds, as --json prints it.
type checkRow struct {
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
		Args:  noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := isThere(cmd); err != nil {
				return err
			}
			return readProgress(cmd, func(file *store.File) error { return showHealth(cmd, file) })
		},
	}
	addJSON(cmd)
	return cmd
}

func showHealth(cmd *cobra.Command, file *store.File) error {
	h, err := file.Check()
	if err != nil {
		return fault(err)
	}
	doubted, err := file.Doubted()
	if err != nil {
		return fault(err)
	}
	o := newOutput(cmd)
	if o.json {
		if err := o.object(checkRow{h.Answers, h.Items, h.Sessions, h.Songs, doubted, len(h.Misfiled), h.Stale}); err != nil {
			return err
		}
		return o.done()
	}
	o.printf("Sound: %s of %s in %s.\n", count(h.Answers, "answer"), count(h.Items, "item"), count(h.Sessions, "session"))
	if h.Songs > 0 {
		o.printf("%s of your own.\n", count(h.Songs, "song"))
	}
	if doubted > 0 {
		o.printf("%s\n", timeDoubted(doubted))
	}
	if n := len(h.Misfiled); n > 0 {
		o.printf("%s under another drill than its own, such as %s; the next practice puts that right.\n", count(n, "item"), theory.Clean(h.Misfiled[0]))
	}
	if h.Stale {
		o.printf("What is worked out from the answers does not follow from them; the next practice makes it again.\n")
	}
	return o.done()
}
