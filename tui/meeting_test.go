package tui

import (
	"strings"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/drills/practice"
	"sparetone/drills/practice/setting"
	"sparetone/tui/page"
	"sparetone/tui/page/asking"
	"sparetone/tui/page/home"
)

// beginner is somebody who has set nothing, at a practice of one drill.
func beginner(t testing.TB, drill string) practice.App {
	return ofDrill(t, drill, setting.Read)
}

// metAll goes on from one thing that is met to the next until a question shows, and returns what was met.
func metAll(t testing.TB, a *app) (names []string) {
	t.Helper()
	for {
		m, meets := a.place.(*asking.Meeting)
		if !meets {
			return names
		}
		if len(names) > 9 {
			t.Fatalf("it goes on: %v", names)
		}
		names = append(names, m.Name.Screen())
		keyed(a, "enter")
	}
}

// What is new is shown on the screen before it is asked, with its sounds; enter goes on, and only then the question comes, is heard, and
// its clock starts. At the next start it is asked at once.
func TestNewThingsAreMetFirst(t *testing.T) {
	p := beginner(t, "chord-ear")
	now := p.Setup.Now()
	clock := func() time.Time { return now }
	p.Setup.Now = clock
	if err := p.Begin(p.Way); err != nil {
		t.Fatal(err)
	}
	f := &screenFace{t: t, a: newApp(p)}
	f.press("enter")
	m, ok := f.a.place.(*asking.Meeting)
	if !ok || p.Speaker.(*fakeSpeaker).played() != 1 {
		t.Fatalf("%T shows, and %d sounds were played", f.a.place, p.Speaker.(*fakeSpeaker).played())
	}
	text := plainText(drawn(sized(f.a, 80, 24)))
	for _, want := range []string{"Something new", m.Name.Screen()[1:], "To be told from", "enter go on", "tab"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not on\n%s", want, text)
		}
	}
	if strings.Contains(text, "Which kind") {
		t.Errorf("it asks already:\n%s", text)
	}
	now = now.Add(time.Minute)
	for met := 0; met < 9; met++ {
		if _, meets := f.a.place.(*asking.Meeting); !meets {
			break
		}
		f.press("enter")
	}
	q := f.asked()
	if !strings.Contains(plainText(drawn(f.a)), "Which kind") {
		t.Errorf("no question shows:\n%s", plainText(drawn(f.a)))
	}
	now = now.Add(3 * time.Second)
	f.answer(q.Asked.Expected().Typed)
	if _, answers := keptIn(t, p.File()); len(answers) != 1 || answers[0].TookMS != 3000 {
		t.Errorf("%+v", answers)
	}
	if err := p.Begin(p.Way); err != nil {
		t.Fatal(err)
	}
	again := keyed(newApp(p), "enter")
	if next, meets := again.place.(*asking.Meeting); meets && next.Target == m.Target {
		t.Errorf("%s is shown once more", m.Name)
	}
}

// In lines the same is said, without a picture, and an empty line goes on.
func TestPlainNewThingsAreMetFirst(t *testing.T) {
	text := plainly(t, beginner(t, "chord-ear"), "", "other", "why", "", "", "", "", "", "", "leave", "")
	says(t, text, "Something new: ", "To be told from", "You hear", "An empty line goes on", "third", "frets", "only the", "string moves", "Question 1.")
	if n := strings.Count(text, "Something new"); n < 1 || n > 5 {
		t.Errorf("%d things are new in\n%s", n, text)
	}
}

// Whoever does not want it is asked at once: with a key or a word for this question, with the setting for good. Whoever stops there is at
// the end, where nothing was asked.
func TestNewThingsMayBeSkipped(t *testing.T) {
	a := keyed(newApp(beginner(t, "doubled")), "enter", "0")
	if _, asks := a.place.(*asking.Question); !asks {
		t.Errorf("0 leads to %T", a.place)
	}
	says(t, plainly(t, beginner(t, "doubled"), "", "skip", "leave", ""), "Something new", "Question 1.")
	p := beginner(t, "doubled")
	says(t, plainly(t, p, "settings", "meet", "meet off", "", "drills", "doubled", "leave", ""), "Meet new things is on. It may be: on; off.", "Meet new things is now off.", "Question 1.")
	if !setting.Read(p.File()).AtOnce {
		t.Error("the setting is not kept")
	}
	for _, off := range []bool{false, true} {
		p := beginner(t, "doubled")
		p.Settings.AtOnce = off
		if _, meets := keyed(newApp(p), "enter").place.(*asking.Meeting); meets == off {
			t.Errorf("off: %v, and it meets: %v", off, meets)
		}
	}
	p = beginner(t, "doubled")
	a = keyed(newApp(p), "enter", "q")
	if _, answers := keptIn(t, p.File()); len(answers) != 0 {
		t.Errorf("%v", answers)
	} else if _, ends := a.place.(*home.Ending); !ends {
		t.Errorf("q leads to %T", a.place)
	}
	says(t, plainly(t, beginner(t, "doubled"), "", "stop", "leave", ""), "Something new", "Nothing was asked this time")
}

// One key shows and plays what it is told from, and then the thing again, with the one string marked that moves.
func TestMeetingFlips(t *testing.T) {
	p := beginner(t, "chord-ear")
	f := &screenFace{t: t, a: newApp(p)}
	f.press("enter")
	m := f.a.place.(*asking.Meeting)
	looks := m.Looks()
	if len(looks) != 2 || looks[0].Mark == 0 || looks[0].Mark != looks[1].Mark || looks[0].Shape == nil || looks[1].Shape == nil {
		t.Fatalf("%+v", looks)
	}
	played := p.Speaker.(*fakeSpeaker).played()
	for n, want := range []int{1, 0, 1} {
		f.press("tab")
		if got := shownShape(t, f.a); !got.Caption.Equal(looks[want].Name) || got.Mark != looks[want].Mark {
			t.Errorf("after %d times there is %s and not %s", n+1, got.Caption, looks[want].Name)
		}
		if got := p.Speaker.(*fakeSpeaker).played(); got != played+n+1 {
			t.Errorf("%d sounds were played, not %d", got, played+n+1)
		}
	}
}

// Where there is no sound a new thing is met by eye.
func TestMeetingInSilence(t *testing.T) {
	p := beginner(t, "shape-name")
	p.Setup.Silent = true
	if err := p.Begin(p.Way); err != nil {
		t.Fatal(err)
	}
	a := keyed(newApp(p), "enter")
	if _, meets := a.place.(*asking.Meeting); !meets {
		t.Fatalf("%T shows", a.place)
	}
	if text := plainText(drawn(sized(a, 80, 24))); strings.Contains(text, "again") || !strings.Contains(text, "═╪═") {
		t.Errorf("in silence it shows\n%s", text)
	}
	if names := metAll(t, a); len(names) == 0 {
		t.Error("nothing was met")
	}
}

// Where the sound device is gone, or never came, a meeting names no key that would sound, and lines do not say what is heard.
func TestMeetingWithoutADevice(t *testing.T) {
	p := beginner(t, "shape-name")
	p.Deviceless = true
	if err := p.Begin(p.Way); err != nil {
		t.Fatal(err)
	}
	a := keyed(newApp(p), "enter")
	if _, meets := a.place.(*asking.Meeting); !meets {
		t.Fatalf("%T shows", a.place)
	}
	bottom := plainText(drawn(sized(a, 80, 24)))
	bottom = bottom[strings.LastIndex(strings.TrimSpace(bottom), "\n"):]
	for _, key := range []string{"again", "open up", "slower"} {
		if strings.Contains(bottom, key) {
			t.Errorf("%q is named in %q", key, bottom)
		}
	}
	if text := plainly(t, p, "", "leave", ""); !strings.Contains(text, "Something new") || strings.Contains(text, "You hear") {
		t.Errorf("in lines:\n%s", text)
	}
}

// shownShape is the one of the shapes of a page that it is about now.
func shownShape(t testing.TB, a *app) drills.Reveal {
	t.Helper()
	for _, b := range a.page().Blocks {
		if s, ok := b.(page.Shapes); ok {
			return s.All[s.At]
		}
	}
	t.Fatalf("%T shows no shape", a.place)
	return drills.Reveal{}
}

// With the first shape that a beginner sees it is said how one is drawn, and in lines how its frets are said before they are; later, and to
// whoever begins where chords are known, it is not.
func TestFirstShapeIsReadOutOnce(t *testing.T) {
	const drawnAs, saidAs = "Upright lines are strings", "Frets are said string by string, from the g string to the A string"
	p := beginner(t, "shape-name")
	a := newApp(p)
	keyed(a, "enter")
	first := strings.Join(strings.Fields(plainText(drawn(sized(a, 80, 24)))), " ")
	if _, meets := a.place.(*asking.Meeting); !meets || !strings.Contains(first, drawnAs) || strings.Contains(first, saidAs) {
		t.Errorf("the first shape is\n%s", first)
	}
	if again := strings.Join(strings.Fields(plainText(drawn(sized(a, 80, 24)))), " "); again != first {
		t.Errorf("drawn again it is\n%s", again)
	}
	if p.KnowsNecks(true) || !p.KnowsNecks(false) {
		t.Error("what was drawn is kept as said")
	}
	if next := newApp(p); strings.Contains(plainText(drawn(sized(keyed(next, "enter"), 80, 24))), "upright lines") {
		t.Error("it is said twice")
	}

	text := plainly(t, beginner(t, "shape-name"), "", "", "", "leave", "")
	if said, told := strings.Index(text, saidAs), strings.Index(text, ": frets "); strings.Count(text, saidAs) != 1 || strings.Contains(text, drawnAs) || told < said {
		t.Errorf("lines say\n%s", text)
	}
	if text := plainly(t, beginner(t, "chord-ear"), "", "", "leave", ""); strings.Contains(text, saidAs) {
		t.Errorf("what is heard says\n%s", text)
	}
	knows := beginner(t, "shape-name")
	knows.Settings.Level = course.Level{Ear: "soft-sevenths", Eye: "soft-sevenths"}
	if !knows.KnowsNecks(true) || !knows.KnowsNecks(false) {
		t.Error("whoever knows sevenths is taught what a neck is")
	}
}
