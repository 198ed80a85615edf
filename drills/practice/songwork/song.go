// Package songwork has a song that somebody works on: read, arranged, with the shapes that were chosen, heard, played along, kept, and what
// practice of it is held to.
package songwork

import (
	"cmp"
	"errors"
	"slices"
	"strings"

	"sparetone/drills"
	"sparetone/drills/lesson"
	"sparetone/drills/perform"
	"sparetone/drills/practice/setting"
	"sparetone/progress"
	"sparetone/progress/store"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
	"sparetone/theory/song"
	"sparetone/theory/song/arrange"
	"sparetone/theory/song/musicxml"
)

// Work is a song that somebody works on: arranged, with the shapes that were chosen, heard while it is changed, and kept.
type Work struct {
	arrange.Arrangement
	Rich    int // 0, plain, to song's richest
	Sounds  perform.Sounds
	Click   bool
	CountIn bool

	kept   progress.Song
	fixed  []arrange.Fixed
	player Player
	live   *perform.Live // nil until it is played
}

// Player is whoever works on a song: what was chosen for good, the progress file that keeps the song, and A4 in Hz as their instrument
// is heard.
type Player interface {
	Chosen() setting.Values
	File() *store.File
	HeardA4() float64
}

// firstRich is how rich a new song is: half way.
const firstRich = 5

// New begins a song that is kept, from a chart, or the text of a MusicXML file. The error says where the chart cannot be read.
func New(p Player, chart string) (*Work, error) {
	w := begun(p)
	return w, w.Rewrite(chart)
}

// Unkept begins a song that is kept nowhere, as New does.
func Unkept(p Player, chart string) (*Work, error) {
	w := begun(p)
	return w, w.rewrite(chart)
}

// Open begins a song that is kept, from a file, whose path a person typed.
func Open(p Player, path string) (*Work, error) {
	chart, err := chartAt(path)
	if err != nil {
		return nil, err
	}
	return New(p, chart)
}

// GoOn goes on with a song that was kept. Of the shapes that were chosen those stay that its chords still have on its tuning.
func GoOn(p Player, kept progress.Song) (*Work, error) {
	w := begun(p)
	w.Rich, w.kept = kept.Rich, kept
	if slices.Contains(perform.All(), perform.Sounds(kept.Sounds)) {
		w.Sounds = perform.Sounds(kept.Sounds)
	}
	w.fixed = chosenIn(kept.Shapes)
	return w, w.Rewrite(kept.Chart)
}

// begun is a song of which no chart is read yet.
func begun(p Player) *Work {
	return &Work{Rich: firstRich, Sounds: perform.Path, CountIn: true, player: p}
}

// TitleOfSong is what a kept song is called: its title, or its first chords.
func TitleOfSong(kept progress.Song) say.Text {
	s, err := song.Read(kept.Chart)
	if err != nil {
		return say.Of("a song")
	}
	return titleOf(s)
}

// chordsInTitle is how many chords name a song without a title.
const chordsInTitle = 4

func titleOf(s song.Song) say.Text {
	if s.Header.Title != "" {
		return say.Of("{}", say.Foreign(theory.Clean(s.Header.Title)))
	}
	var names []say.Fact
	for _, c := range s.Different() {
		if len(names) < chordsInTitle {
			names = append(names, say.Chord(c))
		}
	}
	return say.Of("{}", say.Commas(names...))
}

// Title is what the song is called.
func (w *Work) Title() say.Text { return titleOf(w.Song) }

// Chart is the song as it is written.
func (w *Work) Chart() string { return w.kept.Chart }

// Rewrite has the song be another chart. Shapes that were chosen stay where its chords have them.
func (w *Work) Rewrite(chart string) error {
	if err := w.rewrite(chart); err != nil {
		return err
	}
	return w.Keep()
}

func (w *Work) rewrite(chart string) error {
	s, err := ReadSong(chart)
	if err != nil {
		return err
	}
	chart = progress.TidyChart(chart)
	if IsPacked(chart) || musicxml.Is(chart) {
		chart = song.Write(s)
	}
	if len(chart) > progress.LongestChart {
		return say.Wrong("a song that is kept has at most {} bytes, and this one has {}", say.Number(progress.LongestChart), say.Number(len(chart)))
	}
	was := w.Song
	w.Song = s
	fits := w.fits()
	if err := w.arrange(fits); err != nil {
		w.Song = was
		return err
	}
	w.fixed, w.kept.Chart = fits, strings.TrimRight(chart, "\n")
	return nil
}

// wishes are how the song is to be arranged.
func (w *Work) wishes(fixed []arrange.Fixed) (arrange.Wishes, error) {
	on, err := w.player.Chosen().Instrument()
	if err != nil {
		return arrange.Wishes{}, err
	}
	out := arrange.Wishes{Rich: w.Rich, Fixed: fixed}
	if w.Song.Header.Tuning == nil {
		out.Tuning, out.Capoed = on.Tuning, w.player.Chosen().Capo > 0
	}
	return out, nil
}

// fits are the shapes that were chosen of chords that the song has, and that its tuning can hold as these.
func (w *Work) fits() (out []arrange.Fixed) {
	for _, f := range w.fixed {
		if !slices.ContainsFunc(w.Song.Different(), f.Is) {
			continue
		}
		wishes, err := w.wishes([]arrange.Fixed{f})
		if err == nil {
			_, err = arrange.Arrange(w.Song, wishes)
		}
		if err == nil {
			out = append(out, f)
		}
	}
	return out
}

// arrange arranges the song anew. Where it is played it goes on so from the next bar line.
func (w *Work) arrange(fixed []arrange.Fixed) error {
	wishes, err := w.wishes(fixed)
	if err != nil {
		return err
	}
	a, err := arrange.Arrange(w.Song, wishes)
	if err != nil {
		return err
	}
	w.Arrangement = a
	return w.changed()
}

// changed tells what plays how it goes on.
func (w *Work) changed() error {
	if w.live == nil {
		return nil
	}
	return w.live.Change(w.Arrangement, w.performed())
}

// performed is how the song is played.
func (w *Work) performed() perform.Wishes {
	return perform.Wishes{Sounds: w.Sounds, Click: w.Click, CountIn: w.CountIn}
}

// Keep keeps the song as it is. An error says why it could not be kept; it still holds until the program ends.
func (w *Work) Keep() error {
	w.kept.Tuning, w.kept.Rich, w.kept.Sounds, w.kept.Shapes = w.Tuning.Name, w.Rich, string(w.Sounds), written(w.fixed)
	kept, err := w.player.File().KeepSong(w.kept)
	if err == nil {
		w.kept = kept
	}
	return err
}

// What stands between a chord and its shape, as shapes that were chosen are kept: plain, and on the path alone.
const (
	plainSign = "="
	pathSign  = ">"
)

// written writes shapes that were chosen: C=0003 F>0010.
func written(fixed []arrange.Fixed) string {
	var out []string
	for _, f := range fixed {
		sign := plainSign
		if f.OnPath {
			sign = pathSign
		}
		out = append(out, f.Chord.FullSymbol()+sign+f.Shape.String())
	}
	return strings.Join(out, " ")
}

// chosenIn reads shapes that were chosen. What cannot be read is passed over.
func chosenIn(text string) (fixed []arrange.Fixed) {
	for word := range strings.FieldsSeq(text) {
		at := strings.LastIndexAny(word, plainSign+pathSign)
		if at < 0 {
			continue
		}
		c, err := read.Chord(word[:at])
		s, wrong := fret.ParseShape(word[at+1:])
		if err == nil && wrong == nil {
			fixed = append(fixed, arrange.Fixed{Chord: c, Shape: s, OnPath: word[at:at+1] == pathSign})
		}
	}
	return fixed
}

// fix settles the shape of a chord, or with a nil shape leaves it to be found.
func (w *Work) fix(c theory.Chord, shape fret.Shape, path bool) error {
	fixed := slices.DeleteFunc(slices.Clone(w.fixed), func(f arrange.Fixed) bool { return f.Is(c) && f.OnPath == path })
	if shape != nil {
		fixed = append(fixed, arrange.Fixed{Chord: c, Shape: shape, OnPath: path})
	}
	if err := w.arrange(fixed); err != nil {
		return err
	}
	w.fixed = fixed
	return w.Keep()
}

// Settled reports whether the shape of a chord was chosen, plain or on the path.
func (w *Work) Settled(place int) bool {
	return slices.ContainsFunc(w.fixed, func(f arrange.Fixed) bool { return f.Is(w.Places[place].Chord) })
}

// Free leaves the shapes of a chord to be found again.
func (w *Work) Free(place int) error {
	c := w.Places[place].Chord
	return errors.Join(w.fix(c, nil, false), w.fix(c, nil, true))
}

// NextColour takes the next colour of the chord at a place wherever the chord comes, and after the last one the plain shape.
func (w *Work) NextColour(place int) error {
	p := w.Places[place]
	if len(p.Colours) == 0 {
		return say.Wrong("{} has no colour within reach", say.Chord(p.Chord))
	}
	at := slices.IndexFunc(p.Colours, func(c arrange.Colour) bool { return slices.Equal(c.Shape, p.Path.Shape) })
	if at+1 == len(p.Colours) {
		return w.fix(p.Chord, p.Plain.Shape, true)
	}
	return w.fix(p.Chord, p.Colours[at+1].Shape, true)
}

// NextShape takes the next plain shape of the chord at a place, wherever the chord comes; its colours follow.
func (w *Work) NextShape(place int) error {
	p := w.Places[place]
	all := arrange.Shapes(w.Tuning, p.Chord)
	if len(all) < 2 {
		return say.Wrong("{} has no other shape within reach", say.Chord(p.Chord))
	}
	at := slices.IndexFunc(all, func(s fret.Shape) bool { return slices.Equal(s, p.Plain.Shape) })
	w.fixed = slices.DeleteFunc(w.fixed, func(f arrange.Fixed) bool { return f.OnPath && f.Is(p.Chord) })
	return w.fix(p.Chord, all[(at+1)%len(all)], false)
}

// Richer turns how rich the path is.
func (w *Work) Richer(by int) error {
	was := w.Rich
	w.Rich = min(max(w.Rich+by, 0), progress.RichestSong)
	if err := w.arrange(w.fixed); err != nil {
		w.Rich = was
		return err
	}
	return w.Keep()
}

// Tempo is how fast the song is played, in beats a minute.
func (w *Work) Tempo() float64 { return perform.Wishes{}.TempoOf(w.Song) }

// Faster has the song be so many beats a minute faster, as its chart then says.
func (w *Work) Faster(by float64) error {
	w.Song.Header.Tempo = min(max(w.Tempo()+by, song.LowestTempo), song.HighestTempo)
	w.kept.Chart = song.Write(w.Song)
	if err := w.changed(); err != nil {
		return err
	}
	return w.Keep()
}

// Hear has other shapes be heard, from the next bar line on.
func (w *Work) Hear(s perform.Sounds) error {
	w.Sounds = s
	if err := w.changed(); err != nil {
		return err
	}
	return w.Keep()
}

// Clicks has a click be heard on each beat or not.
func (w *Work) Clicks(on bool) error {
	w.Click = on
	return w.changed()
}

// Play returns the song as it sounds, round and round from the bar of a place on.
func (w *Work) Play(place int, v synth.Voice) (*synth.Sound, error) {
	live, err := perform.NewLive(w.Arrangement, w.performed(), w.Places[place].Bar)
	if err != nil {
		return nil, err
	}
	sound, err := live.Sound(v, synth.Options{A4: w.player.Chosen().A4})
	if err == nil {
		w.live = live
	}
	return sound, err
}

// Stop is told that the song is no longer played.
func (w *Work) Stop() { w.live = nil }

// Playing reports whether the song is played, and where it is: in no bar while it is counted in.
func (w *Work) Playing() (now perform.Now, is bool) {
	if w.live == nil {
		return now, false
	}
	return w.live.Now(), true
}

// SongBar is a bar of a song as it is written.
type SongBar struct {
	Number  int    // from 1
	Section string // that begins with it; empty for none
	Places  []int  // of the arrangement, where it is played first; none where what sounds goes on
	Played  []int  // the bars as which it is played
}

// Bars returns the bars of the song, each once.
func (w *Work) Bars() (bars []SongBar) {
	section := -1
	for n, p := range w.Places {
		at := slices.IndexFunc(bars, func(b SongBar) bool { return b.Number == p.Written })
		if at < 0 {
			b := SongBar{Number: p.Written}
			if p.Section != section && p.Section < len(w.Song.Sections) {
				b.Section = theory.Clean(w.Song.Sections[p.Section].Name)
			}
			section = p.Section
			bars, at = append(bars, b), len(bars)
		}
		b := &bars[at]
		if !slices.Contains(b.Played, p.Bar) {
			b.Played = append(b.Played, p.Bar)
		}
		if b.Played[0] == p.Bar {
			b.Places = append(b.Places, n)
		}
	}
	slices.SortStableFunc(bars, func(a, b SongBar) int { return cmp.Compare(a.Number, b.Number) })
	return bars
}

// Heard is the chord of a place as it is heard now.
func (w *Work) Heard(place int) arrange.Held {
	p := w.Places[place]
	if w.Sounds == perform.Plain {
		return p.Plain
	}
	return p.Path
}

// Reveals are the shapes of a place: the plain one and, where it has one, the coloured one. None if nothing is played there.
func (w *Work) Reveals(place int) (out []drills.Reveal) {
	p := w.Places[place]
	if p.Rests() {
		return nil
	}
	plain := p.Plain
	if c := p.Path.Colour; c != nil && w.Sounds != perform.Plain {
		plain = arrange.Held{Shape: c.From, Chord: p.Chord} // that one string is moved of
	}
	for _, h := range []arrange.Held{plain, p.Path} {
		v, err := fret.Voice(w.Tuning, h.Shape, h.Chord)
		if err != nil || len(out) > 0 && slices.Equal(h.Shape, plain.Shape) {
			continue
		}
		r := drills.Reveal{Caption: say.Of("{}", say.Chord(h.Chord)), Voicing: v}
		if h.Colour != nil {
			r.Mark = h.Colour.String
		}
		out = append(out, r)
	}
	if len(out) == 2 && out[1].Mark != 0 {
		out[0].Mark = out[1].Mark
	}
	return out
}

// Told says of a place what its chord is in the key, what is doubled, and what replaces it.
func (w *Work) Told(place int) (out []say.Text) {
	p := w.Places[place]
	switch {
	case p.Silent:
		return []say.Text{say.Of("No chord is played here.")}
	case p.Unheld:
		return []say.Text{say.Of("{} has no shape on {} that a hand can hold; nothing is played here.", say.Chord(p.Chord), say.Foreign(w.Tuning.Name))}
	}
	k := w.KeyOf(p)
	if p.Outside {
		out = append(out, say.Of("{} is {} in {}, and not of the key.", say.Chord(p.Chord), say.Numeral{Key: k, Chord: p.Chord}, say.Key(k)))
	} else {
		out = append(out, say.Of("{} is {} in {}.", say.Chord(p.Chord), say.Numeral{Key: k, Chord: p.Chord}, say.Key(k)))
	}
	c := p.Path.Colour
	if c == nil {
		if len(p.Colours) == 0 {
			return append(out, say.Of("No colour lies within reach."))
		}
		return append(out, say.Of("Plain on the path; there are {}.", say.Count{N: len(p.Colours), One: "colour", Many: "colours"}))
	}
	i := len(w.Tuning.Strings) - c.String
	from, to := w.Tuning.Pitch(i, c.From[i]).Note, c.Chord.Root.Up(c.Adds)
	if v, err := fret.Voice(w.Tuning, c.From, p.Chord); err == nil {
		from = v.Strings[i].Pitch.Note
	}
	trade := say.Of("{} on the {} string becomes {}: {}", say.Note(from), say.String{On: w.Tuning, Number: c.String}, say.Note(to), c.Trade())
	if marks := c.Marks(); !marks.IsZero() {
		trade = say.Of("{}; {}", trade, marks)
	}
	return append(out, say.Of("{}.", trade))
}

// Chord returns what is heard of the chord at a place: the plain shape and then the one on the path.
func (w *Work) Chord(place int) (sounds []drills.Sound) {
	for _, r := range w.Reveals(place) {
		all := drills.Once(synth.Strum, drills.Soundings(r.Voicing))
		all[0].Label = r.Caption
		sounds = append(sounds, all...)
	}
	return sounds
}

// KeyTold says in which key the song is, and why where that was found.
func (w *Work) KeyTold() say.Text {
	in := w.KeysTold()
	if w.KeyFound == nil {
		return say.Of("In {}.", in)
	}
	return say.Of("In {}, by its chords: {}. Next would be {}.", in, w.KeyFound.Reason(), say.Key(w.RunnerUp.Key))
}

// MovementTold says what the path asks beside the plain one, in fingers that are set.
func (w *Work) MovementTold() say.Text {
	return say.Of("Movement, in fingers set: plain {}, path {}.", tenth(w.Plain.Movement), tenth(w.Chosen.Movement))
}

func tenth(m arrange.Movement) say.Text {
	return say.Of("{}.{}", say.Number(m.Cost()/100), say.Number(m.Cost()%100/10))
}

// Switch has the plain shapes be heard where coloured ones were, and else the coloured ones.
func (w *Work) Switch() error {
	if w.Sounds == perform.Plain {
		return w.Hear(perform.Path)
	}
	return w.Hear(perform.Plain)
}

// Alternate has a bar of plain shapes and one of coloured ones be heard in turn, or no longer.
func (w *Work) Alternate() error {
	if w.Sounds == perform.ByBars {
		return w.Hear(perform.Path)
	}
	return w.Hear(perform.ByBars)
}

// soundsTold says what is heard.
var soundsTold = map[perform.Sounds]say.Text{
	perform.Plain: say.Of("plain"), perform.Path: say.Of("coloured"), perform.ByTurns: say.Of("plain and coloured in turn"), perform.ByBars: say.Of("a bar plain, a bar coloured"),
}

// HeardTold says what is heard, and how.
func (w *Work) HeardTold() say.Text {
	click := say.Of("")
	if w.Click {
		click = say.Of(", with a click")
	}
	return say.Of("{} beats a minute, {}, rich {} of {}{}.", say.Number(w.Tempo()), soundsTold[w.Sounds], say.Number(w.Rich), say.Number(progress.RichestSong), click)
}

// Symbol is what the chord of a place is called as it is heard; a sign where none is played.
func (w *Work) Symbol(place int) string {
	if w.Places[place].Silent {
		return "–"
	}
	return w.Heard(place).Chord.String()
}

// Named is the chord of a place as it is said.
func (w *Work) Named(place int) say.Text {
	if w.Places[place].Silent {
		return say.Of("no chord")
	}
	return say.Of("{}", say.Chord(w.Heard(place).Chord))
}

// Lesson is the text of a lesson made from the song. The error says that no drill asks for any of its chords.
func (w *Work) Lesson() (string, error) {
	return lesson.OfSong(w.Arrangement, w.Title().Screen(), w.Chart())
}
