package songs

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/drills/practice/songwork"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/song"
	"sparetone/theory/song/arrange"
)

// PlaceRow is a chord of a song as --json prints it.
type PlaceRow struct {
	Bar        int         `json:"bar"` // as it is played, from 1
	At         float64     `json:"at"`  // beat of the bar, from 1
	Symbol     string      `json:"symbol"`
	Numeral    string      `json:"numeral"`
	Plain      string      `json:"plain"` // the shape on the path of plain shapes
	Path       string      `json:"path"`  // the shape on the path that was asked for
	Colours    []colourRow `json:"colours"`
	PathSymbol string      `json:"path_symbol"` // what the path has here
	Beats      float64     `json:"beats"`
	Written    int         `json:"written"` // bar of the chart, where repeats are written once
	InKey      bool        `json:"in_key"`
	Key        string      `json:"key"`  // in which it stands
	Held       bool        `json:"held"` // it has a shape; if not, plain and path are empty
}

// colourRow is a colour of a chord.
type colourRow struct {
	Frets   string  `json:"frets"`
	Symbol  string  `json:"symbol"`
	Adds    string  `json:"adds"`
	GivesUp string  `json:"gives_up"`
	String  int     `json:"string"`
	Effort  float64 `json:"effort"`
	InKey   bool    `json:"in_key"` // the added note is of the key, by sound
	Rubs    *string `json:"rubs"`   // the tone that the added note lies a semitone above; null if there is none
	From    string  `json:"from"`   // the plain shape of which one string is moved
	Lost    bool    `json:"lost"`   // what is given up sounds on no other string
	Harder  bool    `json:"harder"` // it asks more than two more than the plain shape
	Leads   string  `json:"leads"`  // stays, steps or nothing, as the next chord comes
}

// SongRow is the last line of a song.
type SongRow struct {
	Key           string      `json:"key"`
	MovementPlain float64     `json:"movement_plain"` // in fingers that are set
	Movement      float64     `json:"movement"`
	Threads       []threadRow `json:"threads"`
	KeyReason     string      `json:"key_reason"` // empty if the key was said
	RunnerUp      string      `json:"runner_up"`
	EffortPlain   float64     `json:"effort_plain"` // added up over the chords
	Effort        float64     `json:"effort"`
	Title         string      `json:"title"`
	Tuning        string      `json:"tuning"`
	Bars          int         `json:"bars"`
	Form          string      `json:"form"`    // how the chart is written: bars, brackets or above
	Picking       string      `json:"picking"` // an order in which the doubled note is heard as a repeated one
}

// threadRow is a string that may keep one note.
type threadRow struct {
	String int       `json:"string"`
	Fret   int       `json:"fret"`
	Note   string    `json:"note"`
	In     []knotRow `json:"in"`
}

// knotRow is what the note is in a chord.
type knotRow struct {
	Symbol string `json:"symbol"` // the plain chord
	Tone   string `json:"tone"`
	Frets  string `json:"frets"`
	Is     string `json:"is"` // what the chord becomes
}

// forms are the ways to write chords, by their names.
var forms = map[song.Form]string{song.Words: "words", song.Bars: "bars", song.Brackets: "brackets", song.Above: "above"}

// leads are the ways in which an added note goes on, by their names.
var leads = map[arrange.Lead]string{arrange.Leaps: "", arrange.Steps: "steps", arrange.Stays: "stays"}

// UsualRich is how rich a song is if that is not said: half way.
const UsualRich = 5

func NewSong() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "song FILE|-",
		Short: "Find shapes, colours and the least movement for a song of your own",
		Long: "Read a chart, bars between |, chords in [square brackets] in the words, or chords on a line above the words, or the chords\n" +
			"of a MusicXML file, and find for each chord a shape, what it may be coloured with, and the path through all of them that asks least movement of the hand.",
		Example: "  sparetone song loop.txt\n  sparetone song loop.txt --rich 8 --fix C=0003 --json\n  sparetone song loop.txt --wav loop.wav --sounds by-turns --click",
	}
	command.AddJSON(cmd)
	command.AddTuning(cmd)
	command.AddKey(cmd, "the key, such as Eb or F#m (default: what the chart says, or what is found)")
	f := cmd.Flags()
	rich := f.Int("rich", UsualRich, "0, plain and as easy as can be, to 10, as rich as can be")
	fixed := f.StringArray("fix", nil, "settle the shape of a chord: CHORD=FRETS; may be given again")
	out, sheets := addSongOut(cmd), addSheet(cmd)
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		if err := out.check(); err != nil {
			return err
		}
		if err := sheets.Check(); err != nil {
			return err
		}
		if len(args) != 1 {
			return command.Wrong("%s needs one FILE with a chart, or - to read it from standard input", cmd.CommandPath())
		}
		if *rich < 0 || *rich > 10 {
			return command.Wrong("--rich: %d; it must be 0 to 10", *rich)
		}
		wishes := arrange.Wishes{Rich: *rich}
		t, key, err := command.TuningAndKeyOf(cmd)
		if err != nil {
			return err
		}
		if cmd.Flags().Changed("tuning") || cmd.Flags().Changed("capo") {
			wishes.Tuning, wishes.Capoed = t, cmd.Flags().Changed("capo")
		}
		wishes.Key = key
		for _, fix := range *fixed {
			one, err := readFix(fix)
			if err != nil {
				return command.Wrong("--fix: %w", err)
			}
			wishes.Fixed = append(wishes.Fixed, one)
		}
		chart, err := ReadChart(cmd, args[0])
		if err != nil {
			return err
		}
		o := command.NewOutput(cmd)
		a, err := Arranged(chart, wishes)
		var files []command.NamedFile
		if err == nil {
			files, err = out.files(a)
		}
		if err == nil {
			var more []command.NamedFile
			more, err = sheets.Files(a)
			files = append(files, more...)
		}
		if err != nil {
			if err := o.Refuse(args[0], err); err != nil {
				return err
			}
			if err := o.Done(); err != nil {
				return err
			}
			return command.ErrReported
		}
		if o.AsJSON {
			err = printSong(o, a)
		} else {
			o.Printf("%s", songText(a))
		}
		if err != nil {
			return err
		}
		if err := o.Done(); err != nil {
			return err
		}
		if err := command.WriteFiles(files, command.Forced(cmd)); err != nil || !out.play {
			return err
		}
		return out.playOn(cmd, a)
	}
	return cmd
}

// readFix reads CHORD=FRETS.
func readFix(typed string) (arrange.Fixed, error) {
	symbol, frets, ok := strings.Cut(typed, "=")
	if !ok {
		return arrange.Fixed{}, fmt.Errorf("%q: write a chord and its shape, such as C=0003", theory.Clip(typed))
	}
	c, err := read.Chord(symbol)
	if err != nil {
		return arrange.Fixed{}, err
	}
	s, err := fret.ParseShape(frets)
	return arrange.Fixed{Chord: c, Shape: s}, err
}

// ReadChart reads the text of a chart from a file, or from standard input for -.
func ReadChart(cmd *cobra.Command, path string) (string, error) {
	in := command.Stdin(cmd)
	if path != "-" {
		f, err := command.OpenInput(cmd.Context(), path)
		if err != nil {
			return "", command.Fault(err)
		}
		defer f.Close()
		in = command.Interruptible(cmd.Context(), f)
	}
	chart, err := songwork.ChartFrom(in)
	switch {
	case errors.Is(err, songwork.ErrLongChart), errors.Is(err, songwork.ErrLongMusicXML):
		return "", command.Wrong("%s: %w", theory.Clean(path), err)
	case err != nil:
		return "", command.Fault(err)
	}
	return chart, nil
}

// Arranged reads a chart, or a MusicXML file, packed or not, and arranges it.
func Arranged(chart string, w arrange.Wishes) (arrange.Arrangement, error) {
	s, err := songwork.ReadSong(chart)
	if err != nil {
		return arrange.Arrangement{}, err
	}
	return arrange.Arrange(s, w)
}

// printSong prints a song as JSON, a line a chord and one for the whole.
func printSong(o *command.Output, a arrange.Arrangement) error {
	for _, p := range a.Places {
		if p.Silent {
			continue
		}
		row := PlaceRow{
			Bar: p.Bar, At: p.At, Symbol: p.Chord.Symbol(), Numeral: a.KeyOf(p).TypedNumeral(p.Chord), Plain: p.Plain.Shape.String(),
			Path: p.Path.Shape.String(), Colours: []colourRow{}, PathSymbol: p.Path.Chord.Symbol(), Beats: p.Beats, Written: p.Written, InKey: !p.Outside, Held: !p.Unheld, Key: a.KeyOf(p).ASCII(),
		}
		for _, c := range p.Colours {
			row.Colours = append(row.Colours, colourRowOf(c))
		}
		if err := o.Object(row); err != nil {
			return err
		}
	}
	row := SongRow{
		Key: a.Key.ASCII(), MovementPlain: inFingers(a.Plain.Movement), Movement: inFingers(a.Chosen.Movement), Threads: []threadRow{},
		EffortPlain: rounded(a.Plain.Effort), Effort: rounded(a.Chosen.Effort), Title: a.Song.Header.Title, Tuning: a.Tuning.Name, Bars: a.Bars, Form: forms[a.Song.Form()],
		Picking: a.Picking().String(),
	}
	if a.KeyFound != nil {
		row.KeyReason, row.RunnerUp = a.KeyFound.Reason().Screen(), a.RunnerUp.Key.ASCII()
	}
	for _, th := range a.Threads {
		t := threadRow{String: th.String, Fret: th.Fret, Note: th.Note.ASCII()}
		for _, k := range th.In {
			t.In = append(t.In, knotRow{k.Of.Symbol(), k.Tone.String(), k.Shape.String(), k.Chord.Symbol()})
		}
		row.Threads = append(row.Threads, t)
	}
	return o.Object(row)
}

func colourRowOf(c arrange.Colour) colourRow {
	row := colourRow{
		Frets: c.Shape.String(), Symbol: c.Chord.Symbol(), Adds: c.Adds.String(), GivesUp: c.GivesUp.String(), String: c.String, Effort: c.Effort,
		InKey: c.InKey(), From: c.From.String(), Lost: c.Lost, Harder: c.Harder, Leads: leads[c.Leads],
	}
	if c.Rubbing() {
		tone := c.Rubs.String()
		row.Rubs = &tone
	}
	return row
}

// inFingers is what a movement costs in fingers that are set.
func inFingers(m arrange.Movement) float64 { return float64(m.Cost()) / 100 }

// rounded is a sum of efforts without what adding up leaves over.
func rounded(sum float64) float64 { return float64(int(sum*100+0.5)) / 100 }

// coloursShown is how many colours of a chord are listed.
const coloursShown = 3

// songText writes a song for the eye.
func songText(a arrange.Arrangement) string {
	var b strings.Builder
	if a.Song.Header.Title != "" {
		fmt.Fprintf(&b, "%s\n", theory.Clean(a.Song.Header.Title))
	}
	fmt.Fprintf(&b, "%s, on %s\n", a.KeysTold().Screen(), a.Tuning.Name)
	if a.KeyFound != nil {
		fmt.Fprintf(&b, "The key is found: %s. Next would be %s: %s.\n", a.KeyFound.Reason().Screen(), a.RunnerUp.Key, a.RunnerUp.Reason().Screen())
	}
	key := a.Keys()[0]
	rows := [][]string{{"bar", "beat", "chord", "in the key", "plain", "path", ""}}
	for _, p := range a.Places {
		if p.Silent {
			continue
		}
		numeral := a.KeyOf(p).Numeral(p.Chord)
		if k := a.KeyOf(p); k != key {
			key, numeral = k, numeral+" in "+k.String()
		}
		if p.Outside {
			numeral += ", not of it"
		}
		row := []string{fmt.Sprint(p.Bar), fmt.Sprintf("%g", p.At), p.Chord.String(), numeral, p.Plain.Shape.String(), p.Path.Shape.String(), ""}
		if p.Unheld {
			row[4], row[5], row[6] = "–", "–", "no shape that a hand can hold"
		}
		if c := p.Path.Colour; c != nil {
			row[6] = c.Chord.String() + ": " + c.TradeOf(p.Plain.Shape).Screen()
		}
		rows = append(rows, row)
	}
	fmt.Fprintf(&b, "\n%s", command.Columns(rows))
	for _, w := range a.WithoutBass() {
		fmt.Fprintf(&b, "\n%s (--fix %s=%s)", w.Said().Screen(), w.Chord.FullSymbol(), w.Shape)
	}
	if len(a.WithoutBass()) > 0 {
		b.WriteByte('\n')
	}
	fmt.Fprintf(&b, "\nMovement as it goes round: plain %.1f, path %.1f, counted in fingers that are set. Effort: plain %.1f, path %.1f.\n",
		inFingers(a.Plain.Movement), inFingers(a.Chosen.Movement), a.Plain.Effort, a.Chosen.Effort)
	fmt.Fprintf(&b, "Picked so that a doubled note is heard twice and an added one moves: %s\n", a.Picking())
	b.WriteString("\nColours:\n" + command.Columns(colourTable(a)))
	if len(a.Threads) > 0 {
		b.WriteString("\nThreads, a string that may keep one note throughout:\n")
		for _, th := range a.Threads {
			var shapes []string
			for _, k := range th.In {
				shapes = append(shapes, k.Shape.String())
			}
			fmt.Fprintf(&b, "%s (%s)\n", th.Said(a.Tuning).Screen(), strings.Join(shapes, " "))
		}
	}
	return b.String()
}

// colourTable lists the first colours of each chord, where it comes first.
func colourTable(a arrange.Arrangement) (rows [][]string) {
	seen := map[theory.Chord]bool{}
	for _, p := range a.Places {
		if p.Rests() || seen[p.Chord] {
			continue
		}
		seen[p.Chord] = true
		for _, c := range p.Colours[:min(coloursShown, len(p.Colours))] {
			rows = append(rows, []string{p.Chord.String(), c.Shape.String(), c.Chord.String(), c.TradeOf(p.Plain.Shape).Screen(), c.Marks().Screen()})
		}
		if len(p.Colours) == 0 {
			rows = append(rows, []string{p.Chord.String(), "none within reach"})
		}
	}
	return rows
}
