package main

import (
	"errors"
	"os"

	"github.com/spf13/cobra"

	"sparetone/drills/course"
	"sparetone/progress"
	"sparetone/progress/whole"
	"sparetone/theory"
)

func newExport() *cobra.Command {
	var asCSV bool
	cmd := &cobra.Command{
		Use:   "export [FILE]",
		Short: "Write all sessions and answers as JSON lines, or the answers as CSV",
		Args:  atMostOne,
		RunE: func(cmd *cobra.Command, args []string) error {
			return readProgress(cmd, func(file *progress.File) error {
				export := file.ExportJSON
				if asCSV {
					export = file.ExportCSV
				}
				if len(args) == 0 || args[0] == "-" {
					return fault(export(&still{to: stdout(cmd), json: !asCSV}))
				}
				return fault(whole.New(args[0], 0o600, func(f *os.File) error { return export(&still{to: f, json: !asCSV}) }))
			})
		},
	}
	cmd.Flags().BoolVar(&asCSV, "csv", false, "answers only, as comma-separated values")
	addJSON(cmd) // as without --csv
	cmd.MarkFlagsMutuallyExclusive("csv", "json")
	return cmd
}

// importRow is what came of an import, as --json prints it.
type importRow struct {
	Input    string `json:"input"`
	Added    int    `json:"added"`
	Known    int    `json:"known"`    // were there already
	Foreign  int    `json:"foreign"`  // of both, to items that this version does not know
	Sessions int    `json:"sessions"` // added
	Import   string `json:"import"`   // its id, by which progress undo names it; "" if nothing was added
	Copy     string `json:"copy"`     // of the file before it; "" if nothing was added
}

func newImport() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "import FILE…",
		Short: "Add what an export holds: all of it, or nothing; what is there stays",
		Long: "Add what an export holds, as JSON lines or CSV. What is there already stays as it is, so an\n" +
			"export may come twice, and two machines that take in each other's hold the same.\n" +
			"An export with a fault in it changes nothing. Answers to what this version does not know are kept;\n" +
			"a newer one may know it. The file is copied first, and progress undo takes an import back.\n" +
			"- reads standard input.",
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return callWrong("%s needs a file, or - for standard input", cmd.CommandPath())
			}
			file, err := openStrictly(cmd)
			if err != nil {
				return err
			}
			defer file.Close()
			o := newOutput(cmd)
			bad := false
			for _, arg := range args {
				got, err := importFrom(cmd, file, arg)
				if err == nil {
					err = showImported(o, arg, got)
				} else if statusOf(err) == inputWrong {
					bad = true
					err = o.refuse(arg, err)
				}
				if err != nil {
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
		},
	}
	addJSON(cmd)
	return cmd
}

// showImported says what came of an import.
func showImported(o *output, arg string, got progress.Imported) error {
	if o.json {
		return o.object(importRow{arg, got.Added, got.Known, got.Foreign, got.Sessions, got.ID, got.Copy})
	}
	o.printf("%s added, %d were there already.\n", count(got.Added, "answer"), got.Known)
	if got.Foreign > 0 {
		o.printf("Among these: %s to what this version does not know, such as %s; kept, but not asked.\n",
			count(got.Foreign, "answer"), theory.Clean(got.Such))
	}
	return nil
}

func importFrom(cmd *cobra.Command, file *progress.File, arg string) (progress.Imported, error) {
	in := stdin(cmd)
	if arg != "-" {
		f, err := openInput(cmd.Context(), arg)
		if err != nil {
			return progress.Imported{}, fault(err)
		}
		defer f.Close()
		in = patient(cmd.Context(), f)
	}
	got, err := file.Import(in, progress.Taking{From: arg, Means: course.Knows})
	if errors.As(err, &progress.BadExport{}) {
		return got, orStatus(err, inputWrong)
	}
	return got, fault(err)
}

// atMostOne refuses a second argument.
func atMostOne(cmd *cobra.Command, args []string) error {
	if len(args) > 1 {
		return callWrong("%s takes one file", cmd.CommandPath())
	}
	return nil
}
