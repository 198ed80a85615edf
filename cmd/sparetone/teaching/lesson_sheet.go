package teaching

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/songs"
	"sparetone/theory"
)

func newLessonSheet() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "sheet FILE",
		Short: "Write what a lesson teaches on a sheet: its chords, their shapes, what one string makes of them, and its songs",
		Example: "  sparetone lesson sheet loop.toml --out loop.pdf\n" +
			"  sparetone lesson sheet loop.toml --out loop.svg --tuning ukulele-low-g --tuning guitar",
	}
	f := cmd.Flags()
	out := f.StringArray("out", nil, "the file to write to, FILE.svg, FILE.html or FILE.pdf; may be given again")
	tunings := f.StringArray("tuning", nil, "an instrument to write it for; given again, each has a file with its name before the ending (default: the lesson's own)")
	paper := f.String("paper", "a4", "the size of the paper: a4 or letter")
	left := f.Bool("left", false, "necks for left-handed players")
	large := f.Bool("large", false, "large print")
	command.AddForce(cmd, "replace a file that is there")
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		if len(args) != 1 {
			return command.Wrong("%s needs one FILE with a lesson", cmd.CommandPath())
		}
		if len(*out) == 0 {
			return command.Wrong("--out: name the file to write the sheet to, such as week.pdf")
		}
		l, err := ReadLesson(cmd.Context(), args[0])
		if err != nil {
			return err
		}
		if len(l.Chords) == 0 {
			return command.BadInput(fmt.Errorf("%s: this lesson names no chords: a sheet shows them; write chords, shapes or songs above its steps", theory.Clean(args[0])))
		}
		on, err := instrumentsOf(*tunings, l)
		if err != nil {
			return err
		}
		o := command.NewOutput(cmd)
		var files []command.NamedFile
		for _, i := range on {
			t := l.On(i)
			sheets := &songs.SheetOptions{Option: "--out", Paper: *paper, Left: *left, Large: *large}
			for _, path := range *out {
				if len(on) > 1 {
					end := filepath.Ext(path)
					path = strings.TrimSuffix(path, end) + "-" + strings.ReplaceAll(i.Tuning.Name, " ", "") + end
				}
				sheets.Paths = append(sheets.Paths, path)
			}
			if err := sheets.Check(); err != nil {
				return err
			}
			more, err := sheets.Files(t.Sheet())
			if err != nil {
				return command.BadInput(err)
			}
			files = append(files, more...)
			o.Printf("%s: %s\n", i.Tuning.Name, theory.Clean(strings.Join(sheets.Paths, ", ")))
			for _, d := range t.Differs {
				o.Printf("  Otherwise: %s\n", d.Screen())
			}
			for _, left := range t.Left {
				o.Printf("  Left out: %s.\n", left.Says.Screen())
			}
		}
		if err := command.WriteFiles(files, command.Forced(cmd)); err != nil {
			return err
		}
		return o.Done()
	}
	return cmd
}
