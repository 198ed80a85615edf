package tui

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"sparetone/tui/page"
)

// walked are pages from which everything is reached: by ear and by eye, new and with a history, kept and not.
func walked() []scene {
	all := scenes()
	return append(all, scene{"welcome-sounding", func(t testing.TB) *app {
		p, _ := practiceOf(t, false)
		p.New = true
		return keyed(newApp(p), "enter", "enter")
	}}, scene{"bench-swapped", func(t testing.TB) *app { return keyed(atFirst(t, true), "v", "tab", "enter") }},
		scene{"bench-two-names", func(t testing.TB) *app { return keyed(atFirst(t, true), "v", "0", "2", "3", "0") }},
		scene{"tones-begun", func(t testing.TB) *app { return keyed(asked(t, "shape-tones"), "3", "left") }},
		scene{"listening", func(t testing.TB) *app { a, _ := withMicrophone(t); return keyed(a, "ctrl+l") }},
		scene{"playing", func(t testing.TB) *app { a, _, _ := playsFor(t, "swap"); return a }},
		scene{"played", func(t testing.TB) *app { return playedAnswer(t, "swap", false) }},
		scene{"may listen", func(t testing.TB) *app { a, _ := withMicrophone(t); return a }},
		scene{"prompt", func(t testing.TB) *app { return keyed(asked(t, "chord-ear"), "h") }})
}

// No act of any page is known to one face alone. On the screen its keys are in the help, and no other act has them; in
// lines its word is in the spoken help and in no other act. Those that belong to a block of the screen have a block that
// knows what to do, and lines of text take what is typed there.
func TestNoActIsOfOneFaceAlone(t *testing.T) {
	t.Parallel()
	places := map[string]bool{}
	ids := map[string]bool{}
	for _, s := range walked() {
		a := sized(s.set(t), 80, 24)
		a.help = false
		places[reflect.TypeOf(a.place).Elem().String()] = true
		p := a.PageOf(a.place)
		here := slices.Concat(p.Acts, a.Everywhere(a.place))
		told, spoken := a.told(false), strings.Join(a.Help(a.place), " ")
		for n, act := range here {
			ids[act.ID] = true
			if !act.Off.IsZero() {
				continue
			}
			if act.Keys == "" || act.Does == "" {
				t.Errorf("%s: the screen has no key or no name for %s", s.name, act.ID)
			}
			known := func(k page.Act) bool { return k.ID == act.ID }
			if !a.typing && !slices.ContainsFunc(told, known) && !slices.ContainsFunc(here[:n], func(k page.Act) bool { return k.Keys == act.Keys || k.Does == act.Does }) {
				t.Errorf("%s: the help of the screen does not name %s", s.name, act.ID)
			}
			if act.ScreenOnly {
				if p.Take == nil && act.Do != nil && !slices.ContainsFunc(here, func(k page.Act) bool { return k.Words != "" && strings.HasPrefix(k.Words, "|") }) {
					t.Errorf("%s: lines take nothing in place of %s", s.name, act.ID)
				}
				continue
			}
			word, _, _ := strings.Cut(act.Words, "|")
			switch {
			case act.Words == "":
				t.Errorf("%s: lines have no word for %s", s.name, act.ID)
			case word == "" && !strings.Contains(spoken, "An empty line"):
				t.Errorf("%s: the spoken help does not speak of the empty line, %s", s.name, act.ID)
			case !strings.Contains(spoken, strings.TrimSpace(word)+act.Says):
				t.Errorf("%s: the spoken help does not name %s: %s", s.name, act.ID, spoken)
			}
			if act.Do == nil && act.ID != "help" {
				t.Errorf("%s: %s does nothing", s.name, act.ID)
			}
			for _, other := range here[:n] {
				if other.ID == act.ID || !other.Off.IsZero() || other.ScreenOnly {
					continue
				}
				for _, key := range strings.Fields(act.Keys) {
					if other.HasKey(key) {
						t.Errorf("%s: %s and %s have the key %s", s.name, other.ID, act.ID, key)
					}
				}
				for _, word := range strings.Split(act.Words, "|") {
					if _, same := other.Match(strings.TrimSpace(word)); same {
						t.Errorf("%s: %s and %s have the word %q", s.name, other.ID, act.ID, word)
					}
				}
			}
		}
	}
	for _, name := range declared(t) {
		if !places[name] {
			t.Errorf("no scene is at the place %s: add one to scenes", name)
		}
	}
	for _, id := range page.Known() {
		if !ids[id] && id != "later" {
			t.Errorf("no scene has the act %s: add one to scenes, or drop the act", id)
		}
	}
}

// declared are the names of all places: the types of tui/page, and of the rooms above it, that make a page.
func declared(t *testing.T) []string {
	var out []string
	err := filepath.WalkDir("page", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Recv != nil && f.Name.Name == "Page" {
				out = append(out, file.Name.Name+"."+f.Recv.List[0].Type.(*ast.StarExpr).X.(*ast.Ident).Name)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(out) < 20 {
		t.Fatalf("%d places are declared", len(out))
	}
	return out
}

// From the same page the same act leads both faces to the same place: its key on the screen, its word in lines.
func TestActsLeadBothFacesToTheSamePlace(t *testing.T) {
	t.Parallel()
	for _, s := range []string{"today", "one-drill", "course", "course-chapter", "course-part", "ending-heard", "answers", "known", "settings-checked", "weak", "bench", "settings", "question-chord-ear", "right-chord-ear", "welcome-hand",
		"songs-none", "songs", "song", "song-chosen", "song-playing", "song-unheld"} {
		acts := sceneNamed(t, s)
		for n, act := range acts.page().Acts {
			if act.ScreenOnly || !act.Off.IsZero() || act.Do == nil {
				continue
			}
			a, b := sized(sceneNamed(t, s), 80, 24), sceneNamed(t, s)
			keyed(a, strings.Fields(act.Keys)[0])
			word, _, _ := strings.Cut(act.Words, "|")
			said, more, _ := b.Find(b.place, word)
			ends := said.Do(more)
			if a.away != ends.Ends || ends.To != nil && reflect.TypeOf(ends.To) != reflect.TypeOf(a.place) {
				t.Errorf("%s, act %d, %s: the screen leads to %T, ends %v; %q to %T, ends %v", s, n, act.ID, a.place, a.away, word, ends.To, ends.Ends)
			}
		}
	}
}

// An act that is added to a page is there on both faces at once.
func TestAnActIsAddedInOnePlace(t *testing.T) {
	did := 0
	extra := page.Act{ID: "bow", Keys: "w", Does: "bow", Words: "bow", Says: ", to bow", Do: func(string) page.Next { did++; return page.Next{} }}
	p, _ := practiceOf(t, true)
	a := newApp(p)
	a.place, a.made = added{a.place, extra}, nil
	sized(a, 80, 24)
	if text := plainText(drawn(a)); !strings.Contains(text, "w bow") {
		t.Errorf("the bottom line does not name it:\n%s", text)
	}
	click(t, a, "w bow")
	if keyed(a, "w"); did != 2 {
		t.Errorf("a click and its key do it %d times", did)
	}
	if text := plainText(drawn(keyed(a, "?"))); !strings.Contains(text, "w ") || !strings.Contains(text, "bow") {
		t.Errorf("the help does not name it:\n%s", text)
	}
	if help := strings.Join(a.Help(a.place), " "); !strings.Contains(help, "bow, to bow") {
		t.Errorf("the spoken help is %q", help)
	}
	if said, _, ok := a.Find(a.place, "Bow."); !ok || said.Do("").Ends || did != 3 {
		t.Errorf("its word does it %d times", did-2)
	}
}

// added is a place with an act more.
type added struct {
	page.Place
	act page.Act
}

func (d added) Page(w *page.Walk) page.Page {
	p := d.Place.Page(w)
	p.Acts = []page.Act{d.act}
	return p
}
