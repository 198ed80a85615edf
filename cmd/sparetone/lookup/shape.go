package lookup

import (
	"strings"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/tui/draw"
)

// ShapeRow is a shape as --json prints it.
type ShapeRow struct {
	Tuning  string      `json:"tuning"`
	Shape   string      `json:"shape"` // as it is typed
	Frets   []*int      `json:"frets"` // null for a muted string
	Strings []stringRow `json:"strings"`
	Names   []NameRow   `json:"names"`
}

// stringRow is what one string sounds; all but its number is null if it is muted.
type stringRow struct {
	String   int     `json:"string"`
	Fret     *int    `json:"fret"`
	Note     *string `json:"note"`
	Octave   *int    `json:"octave"`
	MIDI     *int    `json:"midi"`
	Interval *string `json:"interval"` // above the root of the first name; null if there is none
	Doubled  bool    `json:"doubled"`
}

// NameRow is one right name of a shape.
type NameRow struct {
	Symbol  string   `json:"symbol"`
	Root    string   `json:"root"`
	Kind    string   `json:"kind"`
	Bass    string   `json:"bass"`
	Missing []string `json:"missing"` // tones that do not sound
	Why     []string `json:"why"`     // what ranked it
}

func NewShape() *cobra.Command {
	cmd := &cobra.Command{
		Use:     "shape FRETS…",
		Short:   "Say what a shape sounds, and which chords it is",
		Example: "  sparetone shape 0003\n  sparetone shape x32010 --tuning guitar",
	}
	command.AddJSON(cmd)
	command.AddTuning(cmd)
	command.AddKey(cmd, "a key such as Eb or F#m, which may decide between names")
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		t, key, err := command.TuningAndKeyOf(cmd)
		if err != nil {
			return err
		}
		return command.Each(cmd, args, func(o *command.Output, input string) error {
			s, err := fret.ParseShape(input)
			if err != nil {
				return err
			}
			v, names, err := fret.Hear(t, s, theory.Context{Key: key})
			if err != nil {
				return err
			}
			if o.AsJSON {
				return o.Object(shapeRowOf(v, names))
			}
			o.Printf("%s\n", shapeText(v, names))
			return nil
		})
	}
	return cmd
}

func shapeRowOf(v fret.Voicing, names []theory.Naming) ShapeRow {
	row := ShapeRow{
		Tuning: v.Tuning.Name, Shape: v.Shape.String(), Frets: command.FretsAsJSON(v.Shape),
		Strings: make([]stringRow, len(v.Strings)), Names: make([]NameRow, len(names)),
	}
	for i, s := range v.Strings {
		r := &row.Strings[i]
		r.String = s.Number
		if s.Fret == fret.Muted {
			continue
		}
		note, midi := s.Pitch.Note.ASCII(), s.Pitch.MIDI()
		r.Fret, r.Note, r.Octave, r.MIDI, r.Doubled = &v.Strings[i].Fret, &note, &v.Strings[i].Pitch.Octave, &midi, s.Doubled
		if v.Chord.Kind != nil {
			interval := s.Interval.String()
			r.Interval = &interval
		}
	}
	for i, n := range names {
		c := n.Chord
		row.Names[i] = NameRow{c.Symbol(), c.Root.ASCII(), c.Kind.ID, c.Bass.ASCII(), command.ShortNames(c.Missing()), n.Reasons()}
	}
	return row
}

// namesShown is how many names stand above a drawing at most.
const namesShown = 4

// shapeText draws a shape with its plainest names above it.
func shapeText(v fret.Voicing, names []theory.Naming) string {
	title := "no chord we know"
	var or []string
	for i, n := range names {
		c := n.Chord
		c.Without = 0 // what is left out is said in words
		name := c.String() + command.Lacking(n.Chord.Missing())
		switch {
		case i == 0:
			title = name
		case len(or) < namesShown-1:
			or = append(or, name)
		}
	}
	if or != nil {
		title += ", or " + strings.Join(or, ", or ")
	}
	drawing := draw.Neck{Voicing: v, Named: v.Chord.Kind != nil}.Render(draw.Theme{})
	return v.Shape.String() + " on " + v.Tuning.Name + ": " + title + "\n\n" + command.Trimmed(drawing)
}
