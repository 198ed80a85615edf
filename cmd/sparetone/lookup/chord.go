package lookup

import (
	"fmt"
	"strings"

	"charm.land/lipgloss/v2"
	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/theory"
)

// ChordRow is a chord as --json prints it.
type ChordRow struct {
	Symbol  string    `json:"symbol"`
	Root    string    `json:"root"`
	Kind    string    `json:"kind"`
	Bass    string    `json:"bass"`
	Tones   []toneRow `json:"tones"`
	Missing []string  `json:"missing"` // tones of the kind that the symbol leaves out
	Name    string    `json:"name"`
	Remark  string    `json:"remark,omitempty"` // what should be known of how the symbol was read, as that alt is one chord of several
}

// toneRow is a tone of a chord.
type toneRow struct {
	Note     string `json:"note"`
	Interval string `json:"interval"` // above the root, such as M3
	Degree   string `json:"degree"`   // the same as a formula writes it, such as b7
}

func NewChord() *cobra.Command {
	cmd := &cobra.Command{
		Use:     "chord SYMBOL…",
		Short:   "Say which notes a chord has",
		Example: "  sparetone chord Cadd9 'F#m7b5' 'C7(b9,#11)'",
		RunE: func(cmd *cobra.Command, args []string) error {
			return command.Each(cmd, args, func(o *command.Output, input string) error {
				c, how, err := command.ReadChord(input)
				if err != nil {
					return err
				}
				if o.AsJSON {
					row := chordRowOf(c)
					row.Remark = how.String()
					return o.Object(row)
				}
				o.Printf("%s", chordText(c))
				if text := how.String(); text != "" {
					o.Printf("  %s\n", text)
				}
				return nil
			})
		},
	}
	command.AddJSON(cmd)
	return cmd
}

func chordRowOf(c theory.Chord) ChordRow {
	row := ChordRow{
		Symbol: c.FullSymbol(), Root: c.Root.ASCII(), Kind: c.Kind.ID, Bass: c.Bass.ASCII(), Missing: command.ShortNames(c.Missing()),
		Name: c.Root.ASCII() + " " + c.Kind.Name,
	}
	for n, i := range c.Kind.Formula {
		if !c.Without.Has(n) {
			row.Tones = append(row.Tones, toneRow{c.Root.Up(i).ASCII(), i.String(), i.DegreeASCII()})
		}
	}
	return row
}

// chordText writes a chord as a player reads it: its name, and under each note what it is.
func chordText(c theory.Chord) string {
	title := fmt.Sprintf("%s: %s %s%s", c.FullString(), c.Root, c.Kind.Name, command.Lacking(c.Missing()))
	if c.Bass != c.Root {
		title += fmt.Sprintf(" over %s", c.Bass)
	}
	var notes, degrees strings.Builder
	cell := lipgloss.NewStyle().Width(5)
	for n, i := range c.Kind.Formula {
		if !c.Without.Has(n) {
			notes.WriteString(cell.Render(c.Root.Up(i).String()))
			degrees.WriteString(cell.Render(i.Degree()))
		}
	}
	return fmt.Sprintf("%s\n  %s\n  %s\n", title, strings.TrimRight(notes.String(), " "), strings.TrimRight(degrees.String(), " "))
}
