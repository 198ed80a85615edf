package practice

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/bench"
	"sparetone/drills/catalogue"
	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Keepsake is a sound of the session, to be heard again at its end.
type Keepsake struct {
	Name   say.Text
	Voice  synth.Voice
	Sounds []drills.Sound
}

// mostKeepsakes is how many sounds are kept of a session.
const mostKeepsakes = 3

// Keepsakes picks sounds of the session: what was new and came right first, then what was right, then the rest, the latest first; of each
// drill and about each thing one, as long as there are others, and nothing twice.
func (p *App) Keepsakes() []Keepsake {
	var out []Keepsake
	used, drill, about := map[string]bool{}, map[string]bool{}, map[drills.Topic]bool{}
	right := func(a answer) bool { return a.Result == progress.Right }
	for _, wanted := range []func(a answer) bool{
		func(a answer) bool { return a.fresh && right(a) && !drill[a.Drill] && !about[p.topicOf(a.Item)] },
		func(a answer) bool { return right(a) && !drill[a.Drill] && !about[p.topicOf(a.Item)] },
		func(a answer) bool { return right(a) && !drill[a.Drill] },
		func(a answer) bool { return right(a) && !about[p.topicOf(a.Item)] },
		func(a answer) bool { return a.fresh && right(a) },
		right,
		func(answer) bool { return true },
	} {
		for _, a := range slices.Backward(p.answers) {
			name, sounds := p.soundOf(a)
			if len(out) == mostKeepsakes || len(sounds) == 0 || used[name.Screen()] || !wanted(a) {
				continue
			}
			used[name.Screen()], drill[a.Drill], about[p.topicOf(a.Item)] = true, true, true
			out = append(out, Keepsake{name, a.Voice, sounds})
		}
	}
	return out
}

// soundOf is what an answer was about, to hear again: what sounded, or else the shape that was shown, strummed.
func (p *App) soundOf(a answer) (say.Text, []drills.Sound) {
	name, sounds := p.Session.Name(a.Item), a.Verdict.Asked
	shapes := a.AskedShapes()
	if len(sounds) == 0 && len(shapes) > 0 {
		sounds = drills.Once(synth.Strum, drills.Soundings(shapes[len(shapes)-1].Voicing))
	}
	if len(shapes) == 1 && shapes[0].Voicing.Chord.Kind != nil {
		name = say.Of("{}", say.Titled(shapes[0].Voicing.Chord))
	}
	return name, sounds
}

// topicOf is what an item is about; the zero Topic where nothing asks for it any more.
func (p *App) topicOf(item string) drills.Topic {
	drill, target, _ := drills.SplitItem(item)
	d, ok := catalogue.ByID(drill)
	if !ok {
		return drills.Topic{}
	}
	targets := d.Targets(p.Session.On())
	i := slices.IndexFunc(targets, func(t drills.Target) bool { return t.ID == target })
	if i < 0 {
		return drills.Topic{}
	}
	return targets[i].Topic
}

// Takeaway is the chord of the day: of what was practised in this session if it has a colour, or else of all that was met; where there is no colour
// yet a shape that was shown in this session, if there was one. It returns false if
// nothing fits the instrument.
func (p *App) Takeaway() (bench.Takeaway, bool) {
	today, ever := map[string]bool{}, map[string]bool{}
	kindOf := func(item string) string {
		if topic := p.topicOf(item); coloursOf[topic.Of] {
			return topic.ID
		}
		return ""
	}
	for _, a := range p.answers {
		today[kindOf(a.Item)] = true
	}
	if grasps, err := p.Grasps(); err == nil {
		for item := range grasps {
			ever[kindOf(item)] = true
		}
	}
	day := int(progress.DayOf(p.now()))
	var plain []bench.Takeaway
	for _, kinds := range []map[string]bool{today, ever} {
		all := bench.Takeaways(p.Session.On(), func(kind string) bool { return kinds[kind] })
		if len(all) > 0 && all[0].Swap != nil {
			return all[day%len(all)], true
		}
		plain = append(plain, all...)
	}
	if len(plain) == 0 {
		return bench.Takeaway{}, false
	}
	if seen := slices.DeleteFunc(slices.Clone(plain), func(t bench.Takeaway) bool { return !p.wasSeen(t.Plain) }); len(seen) > 0 {
		plain = seen
	}
	return plain[day%len(plain)], true
}

// wasSeen reports whether a shape was shown in this session, or heard, of what was asked.
func (p *App) wasSeen(v fret.Voicing) bool {
	return slices.ContainsFunc(p.answers, func(a answer) bool {
		return slices.ContainsFunc(a.AskedShapes(), func(r drills.Reveal) bool { return slices.Equal(r.Voicing.Shape, v.Shape) })
	})
}

// coloursOf are the sorts of topics that are kinds of chord.
var coloursOf = map[string]bool{"kind": true, "addition": true}
