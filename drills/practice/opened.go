package practice

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/meet"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// openedKey is the key of the setting that says that a word of the trade was explained.
func openedKey(term string) string { return "opened/" + term }

// Opened reports whether a word of the trade was explained on this file before, or is taken as known where practice begins. Where the file
// does not say, it was not.
func (p *App) Opened(term string) bool {
	if t, ok := meet.TermByID(term); ok && t.Before != "" && p.Settings.Level.IsPast(t.Before) {
		return true
	}
	_, opened, err := p.File().Setting(openedKey(term))
	return opened && err == nil
}

// Open keeps that a word of the trade was explained.
func (p *App) Open(term string) error { return p.File().SetSetting(openedKey(term), "yes") }

// What was said of necks, kept beside the words of the trade: how they are drawn, and how their frets are said.
const (
	necksDrawn = "neck"
	fretsSaid  = "frets"
)

// chordsKnown is the step of the course at which whoever begins is taken to know how a shape is drawn and said.
const chordsKnown = "thirds"

// KnowsNecks reports whether it was said on this file how a shape is drawn, or, aloud, how its frets are said, or whether practice begins
// where that is known.
func (p *App) KnowsNecks(aloud bool) bool {
	return p.Settings.Level.IsPast(chordsKnown) || p.Opened(necksIn(aloud))
}

// TellNecks keeps that it was said.
func (p *App) TellNecks(aloud bool) error { return p.Open(necksIn(aloud)) }

func necksIn(aloud bool) string {
	if aloud {
		return fretsSaid
	}
	return necksDrawn
}

// tonesDrill is the drill that teaches which string is which tone of a chord.
const tonesDrill = "shape-tones"

// knownAfter is how often in a row somebody told the tones of a kind of chord right who knows them (from judgement).
const knownAfter = 2

// KnowsTone reports whether the student knows how a tone is written, such as ♭3: who told the strings of a chord that has it, or began
// beyond that.
func (p *App) KnowsTone(tone theory.Interval) bool {
	d, ok := catalogue.ByID(tonesDrill)
	return ok && slices.ContainsFunc(d.Targets(p.Session.On()), func(t drills.Target) bool {
		k, isKind := theory.KindByID(t.ID)
		return isKind && slices.Contains(k.Formula, tone) &&
			(p.Settings.Level.SawBefore(tonesDrill, t.ID) || p.Session.InARow(d, t.ID) >= knownAfter)
	})
}

// writtenAlways are the degrees that whoever has to write degrees is told of: those of plain chords, minor and major alike.
var writtenAlways = []theory.Interval{theory.Unison, theory.MinorThird, theory.MajorThird, theory.PerfectFifth}

// writtenAlike are degrees of which one is told with the other, so that it is not told which of them there is.
var writtenAlike = []theory.Interval{theory.DiminishedFifth, theory.AugmentedFifth, theory.MinorSeventh, theory.MajorSeventh}

// Legend says what the degrees of some shapes mean that the student does not know yet, and those that may have to be written for the shape
// asked, nil for none; zero if all are known.
func (p *App) Legend(shapes []drills.Reveal, asked *fret.Voicing) say.Text {
	var tones []theory.Interval
	add := func(i theory.Interval) {
		if !slices.Contains(tones, i) && !p.KnowsTone(i) {
			tones = append(tones, i)
		}
	}
	for _, s := range shapes {
		for _, st := range s.Voicing.Strings {
			if st.Fret != fret.Muted && s.Voicing.Chord.Kind != nil {
				add(st.Interval)
			}
		}
	}
	if asked != nil {
		for _, i := range writtenAlways {
			add(i)
		}
		for _, of := range asked.Chord.Kind.Formula {
			if slices.Contains(writtenAlways, of) {
				continue
			}
			add(of)
			for _, i := range writtenAlike {
				if i.Number == of.Number {
					add(i)
				}
			}
		}
	}
	slices.SortFunc(tones, func(a, b theory.Interval) int { return a.Semitones - b.Semitones })
	return sayLegend(tones)
}
