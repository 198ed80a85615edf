package records

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/drills/course"
	"sparetone/progress"
	"sparetone/progress/exchange"
	"sparetone/progress/exported"
	"sparetone/progress/store"
	"sparetone/progress/whole"
	"sparetone/theory"
)

func newExport() *cobra.Command {
	var asCSV bool
	cmd := &cobra.Command{
		Use:   "export [FILE]",
		Short: "Write all sessions and answers as JSON lines, or the answers as CSV",
		Args:  command.AtMostOne,
		RunE: func(cmd *cobra.Command, args []string) error {
			return command.ReadProgress(cmd, func(file *store.File) error {
				export := file.ExportJSON
				if asCSV {
					export = file.ExportCSV
				}
				if len(args) == 0 || args[0] == "-" {
					return command.Fault(export(&command.SafeText{To: command.Stdout(cmd), AsJSON: !asCSV}))
				}
				return command.Fault(whole.New(args[0], 0o600, func(f *os.File) error { return export(&command.SafeText{To: f, AsJSON: !asCSV}) }))
			})
		},
	}
	cmd.Flags().BoolVar(&asCSV, "csv", false, "answers only, as comma-separated values")
	command.AddJSON(cmd) // as without --csv
	cmd.MarkFlagsMutuallyExclusive("csv", "json")
	return cmd
}

// ImportRow is what came of an import, as --json prints it.
type ImportRow struct {
	Input    string     `json:"input"`
	Added    int        `json:"added"`
	Known    int        `json:"known"`    // were there already
	Foreign  int        `json:"foreign"`  // of both, to items that this version does not know
	Sessions int        `json:"sessions"` // added
	Import   string     `json:"import"`   // its id, by which progress undo names it; "" if nothing was added
	Copy     string     `json:"copy"`     // of the file before it; "" if nothing was added
	Whose    []WhoseRow `json:"whose"`    // practice the export holds
	Goes     bool       `json:"goes_on"`  // the file was empty, and goes on from the first of these
	Joined   []WhoseRow `json:"joined"`   // of these, those that were not the student's own before
	Songs    int        `json:"songs"`    // added, or changed
}

func newImport() *cobra.Command {
	var asMine bool
	cmd := &cobra.Command{
		Use:   "import FILE…",
		Short: "Add what an export holds: all of it, or nothing; what is there stays",
		Long: "Add what an export holds, as JSON lines or CSV. What is there already stays as it is, so an\n" +
			"export may come twice, and two machines that take in each other's hold the same.\n" +
			"An export with a fault in it changes nothing. Answers to what this version does not know are kept;\n" +
			"a newer one may know it. The file is copied first, and progress undo takes an import back.\n" +
			"- reads standard input.\n\n" +
			"An export says whose practice it holds. A file that is empty goes on from where that one is. Somebody\n" +
			"else's practice is not mixed with yours unasked: it goes into the file that --progress names, or into\n" +
			"your own with --as-mine; on a terminal you are asked.",
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return command.Wrong("%s needs a file, or - for standard input", cmd.CommandPath())
			}
			file, err := command.OpenStrictly(cmd)
			if err != nil {
				return err
			}
			defer file.Close()
			o := command.NewOutput(cmd)
			bad := false
			for _, arg := range args {
				got, err := importAsked(cmd, file, o, arg, asMine || cmd.Flags().Changed("progress"))
				if err == nil {
					err = showImported(o, arg, got, cmd.Flags().Changed("progress"))
				} else if command.StatusOf(err) == command.InputWrong {
					bad = true
					err = o.Refuse(arg, err)
				}
				if err != nil {
					return err
				}
			}
			if err := o.Done(); err != nil {
				return err
			}
			if bad {
				return command.ErrReported
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&asMine, "as-mine", false, "take in what is of another progress file as your own, now and from now on")
	command.AddJSON(cmd)
	return cmd
}

// showImported says what came of an import. Where the file was named, it is known that an empty one goes on from another.
func showImported(o *command.Output, arg string, got exchange.Imported, named bool) error {
	if o.AsJSON {
		row := ImportRow{arg, got.Added, got.Known, got.Foreign, got.Sessions, got.ID, got.Copy, []WhoseRow{}, got.Goes, []WhoseRow{}, got.Songs}
		for _, w := range got.Of {
			row.Whose = append(row.Whose, WhoseRow(w))
		}
		for _, w := range got.Joined {
			row.Joined = append(row.Joined, WhoseRow(w))
		}
		return o.Object(row)
	}
	o.Printf("%s added, %d were there already.\n", command.Count(got.Added, "answer"), got.Known)
	if got.Songs > 0 {
		o.Printf("%s added or changed.\n", command.Count(got.Songs, "song"))
	}
	if got.Foreign > 0 {
		o.Printf("Among these: %s to what this version does not know, such as %s; kept, but not asked.\n",
			command.Count(got.Foreign, "answer"), theory.Clean(got.Such))
	}
	if got.Goes && !named {
		o.Printf("Your progress file was empty, and goes on from %s; progress undo takes that back.\n", theory.Clean(fileOf(got.Of[0])))
	}
	for _, w := range got.Joined {
		o.Printf("This is of %s, and is taken in as yours from now on; progress undo takes that back.\n", theory.Clean(fileOf(w)))
	}
	return nil
}

// fileOf says whose progress file it is.
func fileOf(w progress.Whose) string {
	if w.Name == "" {
		return "another progress file, " + w.ID
	}
	return "the progress file of " + w.Name
}

// importAsked imports, and asks where there is somebody to ask whether another's practice is to be taken in. Elsewhere it is
// refused.
func importAsked(cmd *cobra.Command, file *store.File, o *command.Output, arg string, other bool) (exchange.Imported, error) {
	got, err := importFrom(cmd, file, arg, other)
	another := (*exchange.AnothersError)(nil)
	if !errors.As(err, &another) {
		return got, err
	}
	refusal := command.BadInput(fmt.Errorf("%w; --as-mine takes them in as yours, --progress FILE into a file of their own", another))
	if about, unknown := os.Stat(arg); o.AsJSON || unknown != nil || !about.Mode().IsRegular() || !command.IsTerminal(cmd.InOrStdin()) || !command.IsTerminal(cmd.OutOrStdout()) {
		return got, refusal
	}
	o.Printf("%s: %s of %s. Take them in as yours? yes or no: ", theory.Clean(arg), command.Count(another.Answers, "answer"), theory.Clean(fileOf(another.Whose)))
	if err := o.Done(); err != nil {
		return got, err
	}
	said, err := bufio.NewReader(command.Stdin(cmd)).ReadString('\n')
	if err != nil && err != io.EOF {
		return got, command.Fault(err)
	}
	if said = strings.ToLower(strings.TrimSpace(said)); said != "yes" && said != "y" {
		return got, refusal
	}
	return importFrom(cmd, file, arg, true)
}

func importFrom(cmd *cobra.Command, file *store.File, arg string, other bool) (exchange.Imported, error) {
	in := command.Stdin(cmd)
	if arg != "-" {
		f, err := command.OpenInput(cmd.Context(), arg)
		if err != nil {
			return exchange.Imported{}, command.Fault(err)
		}
		defer f.Close()
		in = command.Interruptible(cmd.Context(), f)
	}
	got, err := file.Import(in, exchange.Taking{From: arg, Means: course.Knows, Other: other})
	if errors.As(err, &exported.BadExport{}) {
		return got, command.OrStatus(err, command.InputWrong)
	}
	return got, command.Fault(err)
}
