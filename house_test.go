package sparetone_test

import (
	"go/ast"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// mayImport is which rooms each room may import: the way runs down the house and never back.
var mayImport = map[string][]string{
	"cmd/sparetone":            {"cmd/sparetone/command", "cmd/sparetone/lookup", "cmd/sparetone/records", "cmd/sparetone/songs", "cmd/sparetone/teaching", "drills", "drills/catalogue", "drills/course", "drills/inturn", "drills/lesson", "drills/neck", "drills/paper", "drills/practice", "drills/practice/session", "drills/practice/setting", "progress/store", "progress/whole", "synth", "synth/capture", "synth/playback", "theory", "theory/fret", "theory/say", "theory/song", "tui", "tui/draw/papers", "tui/lines"},
	"cmd/sparetone/songs":      {"cmd/sparetone/command", "drills/perform", "drills/practice/songwork", "synth", "synth/playback", "theory", "theory/fret", "theory/read", "theory/song", "theory/song/arrange", "theory/song/musicxml", "tui/draw/sheet"},
	"cmd/sparetone/teaching":   {"cmd/sparetone/command", "cmd/sparetone/songs", "drills/class", "drills/lesson", "drills/neck", "drills/practice", "drills/practice/session", "drills/practice/setting", "drills/practice/songwork", "progress", "progress/exported", "progress/memory", "progress/store", "progress/whole", "synth", "theory", "theory/fret", "theory/song", "theory/song/arrange", "theory/song/musicxml", "tui/draw/classes"},
	"cmd/sparetone/records":    {"cmd/sparetone/command", "drills", "drills/course", "drills/practice", "progress", "progress/exchange", "progress/exported", "progress/memory", "progress/store", "progress/whole", "theory"},
	"cmd/sparetone/lookup":     {"cmd/sparetone/command", "drills/bench", "drills/played", "drills/practice", "progress/whole", "synth", "synth/capture", "synth/hear", "theory", "theory/fret", "theory/say", "tui/draw"},
	"cmd/sparetone/command":    {"drills/bench", "drills/neck", "progress", "progress/store", "progress/whole", "synth", "synth/playback", "theory", "theory/fret", "theory/read", "theory/say"},
	"cmd/release":              {"progress/whole"},
	"tui/page/home":            {"tui/page", "tui/page/asking", "tui/page/songs", "tui/page/trying", "drills", "drills/bench", "drills/catalogue", "drills/course", "drills/practice", "drills/practice/setting", "synth/capture", "synth/playback", "theory", "theory/fret", "theory/say"},
	"tui/page/songs":           {"tui/draw/sheet", "tui/page", "tui/page/asking", "drills/practice", "drills/practice/songwork", "progress", "synth", "synth/capture", "theory/say"},
	"tui/page/asking":          {"tui/draw", "tui/page", "tui/page/trying", "drills", "drills/catalogue", "drills/inturn", "drills/meet", "drills/neck", "drills/played", "drills/practice", "drills/practice/session", "progress", "synth", "synth/capture", "synth/playback", "theory/say"},
	"tui/page/trying":          {"tui/page", "drills", "drills/bench", "drills/catalogue", "drills/neck", "synth", "theory/fret", "theory/say"},
	"tui/page/player":          {"tui/page", "drills/catalogue", "drills/course", "drills/neck", "drills/played/student", "drills/practice", "drills/practice/session", "drills/practice/setting", "progress/store", "synth/capture", "synth/playback"}, // for tests
	"tui/page":                 {"tui/draw", "drills", "drills/bench", "drills/inturn", "drills/meet", "drills/played", "drills/practice", "drills/practice/songwork", "synth", "synth/capture", "synth/playback", "theory", "theory/fret", "theory/say"},
	"tui":                      {"tui/draw", "tui/page", "tui/page/home", "drills", "drills/inturn", "drills/neck", "drills/practice", "drills/practice/songwork", "progress", "progress/memory", "synth", "synth/hear", "theory", "theory/fret", "theory/say"},
	"tui/lines":                {"tui/draw", "tui/page", "tui/page/asking", "tui/page/home", "drills/inturn", "drills/practice", "synth/playback", "theory", "theory/say"},
	"tui/draw/classes":         {"drills/class", "progress/memory", "theory", "theory/say"},
	"tui/draw/papers":          {"tui/draw", "tui/draw/sheet", "drills", "drills/neck", "theory", "theory/fret", "theory/say"},
	"tui/draw/sheet":           {"theory", "theory/fret", "theory/say", "theory/song", "theory/song/arrange"},
	"tui/draw":                 {"theory", "theory/fret", "theory/say"},
	"drills/practice":          {"drills", "drills/bench", "drills/catalogue", "drills/course", "drills/lesson", "drills/meet", "drills/neck", "drills/played", "drills/practice/session", "drills/practice/setting", "drills/practice/songwork", "progress", "progress/exchange", "progress/memory", "progress/plan", "progress/store", "progress/whole", "synth", "synth/capture", "synth/hear", "synth/playback", "theory", "theory/fret", "theory/read", "theory/say"},
	"drills/paper":             {"drills", "drills/catalogue", "drills/course", "drills/inturn", "drills/neck", "synth", "theory", "theory/fret", "theory/say"},
	"drills/practice/session":  {"drills", "drills/catalogue", "drills/course", "drills/lesson", "drills/meet", "drills/neck", "drills/practice/session", "progress", "progress/plan", "progress/store", "theory", "theory/fret", "theory/say"},
	"drills/practice/songwork": {"drills", "drills/catalogue", "drills/harmony", "drills/lesson", "drills/neck", "drills/perform", "drills/played", "drills/practice/setting", "progress", "progress/store", "synth", "synth/hear", "theory", "theory/fret", "theory/read", "theory/say", "theory/song", "theory/song/arrange", "theory/song/musicxml"},
	"drills/practice/setting":  {"drills", "drills/course", "drills/neck", "progress/store", "synth", "synth/playback", "theory", "theory/fret", "theory/read", "theory/say"},
	"drills/inturn":            {"drills", "synth", "theory/say"},
	"drills/lesson":            {"drills", "drills/catalogue", "drills/chord", "drills/course", "drills/harmony", "drills/neck", "progress", "synth", "theory", "theory/fret", "theory/read", "theory/say", "theory/song", "theory/song/arrange", "theory/song/musicxml"},
	"drills/class":             {"drills", "drills/bench", "drills/catalogue", "drills/course", "drills/neck", "progress", "progress/exchange", "progress/memory", "progress/whole", "theory", "theory/fret", "theory/read", "theory/say"},
	"drills/played":            {"drills", "drills/neck", "progress", "synth/hear", "theory", "theory/fret", "theory/say"},
	"drills/played/student":    {"drills", "progress", "synth", "theory", "theory/fret"}, // for tests
	"drills/guesser":           nil,                                                      // for tests
	"drills/perform":           {"drills", "synth", "theory", "theory/fret", "theory/song", "theory/song/arrange"},
	"drills/meet":              {"drills", "drills/catalogue", "drills/chord", "drills/neck", "drills/wording", "synth", "theory", "theory/fret", "theory/say"},
	"drills/course":            {"drills", "drills/catalogue", "drills/neck", "progress", "theory", "theory/fret", "theory/read", "theory/say"},
	"drills/catalogue":         {"drills", "drills/chord", "drills/ear", "drills/harmony", "drills/neck", "drills/shapes", "theory", "theory/say"},
	"drills/bench":             {"drills", "drills/chord", "drills/neck", "drills/wording", "synth", "theory", "theory/fret", "theory/read", "theory/say"},
	"drills/harmony":           {"drills", "drills/chord", "drills/fair", "drills/neck", "drills/wording", "progress", "synth", "theory", "theory/fret", "theory/read", "theory/say"},
	"drills/shapes":            {"drills", "drills/chord", "drills/fair", "drills/neck", "drills/wording", "progress", "synth", "theory", "theory/fret", "theory/read", "theory/say"},
	"drills/ear":               {"drills", "drills/chord", "drills/fair", "drills/neck", "drills/wording", "synth", "theory", "theory/fret", "theory/read", "theory/say"},
	"drills/fair":              {"drills", "drills/neck", "theory/fret"},
	"drills/trial":             {"drills", "drills/neck", "synth", "theory", "theory/fret", "theory/say"}, // for tests
	"drills":                   {"drills/chord", "drills/neck", "drills/wording", "progress", "synth", "theory", "theory/fret", "theory/read", "theory/say"},
	"drills/neck":              {"drills/chord", "drills/wording", "synth", "theory", "theory/fret", "theory/read", "theory/say"},
	"drills/wording":           {"drills/chord", "theory", "theory/fret", "theory/say"},
	"drills/chord":             {"theory", "theory/fret", "theory/read"},
	"synth":                    {"theory"},
	"synth/capture":            {"synth", "synth/playback"},
	"synth/playback":           {"synth"},
	"synth/measure":            nil, // for tests
	"synth/hear":               {"synth/hear/net", "theory"},
	"synth/hear/net":           nil,
	"synth/hear/train":         {"synth/hear/net", "progress/whole"}, // makes the nets
	"progress/store":           {"progress", "progress/clock", "progress/exchange", "progress/memory", "progress/pages", "progress/rescue", "progress/tables", "progress/whole"},
	"progress/pupils":          {"progress", "progress/clock", "progress/memory", "progress/plan"}, // for tests
	"progress/plan":            {"progress", "progress/clock", "progress/memory"},
	"progress/exchange":        {"progress", "progress/clock", "progress/exported", "progress/pages", "progress/tables", "progress/whole"},
	"progress/exported":        {"progress", "progress/clock", "progress/tables"},
	"progress/rescue":          {"progress", "progress/pages", "progress/tables"},
	"progress/tables":          {"progress", "progress/clock", "progress/memory"},
	"progress/memory":          {"progress"},
	"progress/clock":           {"progress"},
	"progress/pages":           {"progress", "progress/whole"},
	"progress/whole":           nil,
	"progress/given":           {"progress"}, // for tests
	"brisk":                    nil,          // for tests
	"progress":                 nil,
	"theory/fret":              {"theory"},
	"theory/read":              {"theory", "theory/say"},
	"theory/say":               {"theory", "theory/fret"},
	"theory/song/arrange":      {"theory", "theory/fret", "theory/say", "theory/song"},
	"theory/song/musicxml":     {"theory", "theory/fret", "theory/say", "theory/song", "theory/song/arrange"},
	"theory/song":              {"theory", "theory/fret", "theory/read", "theory/say"},
	"theory/drawn":             {"theory"}, // for tests
	"theory":                   nil,
}

func TestImportsRunOneWay(t *testing.T) {
	seen := 0
	eachSource(t, func(file source) {
		room := path.Dir(file.path)
		allowed, known := mayImport[room]
		if !known {
			if !strings.Contains("/"+room, "/testdata/") {
				t.Errorf("%s: a room that the house does not have", file.path)
			}
			return
		}
		for _, spec := range file.Imports {
			name, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				t.Fatal(err)
			}
			if ours, ok := strings.CutPrefix(name, "sparetone/"); ok {
				seen++
				if !slices.Contains(allowed, ours) {
					t.Errorf("%s imports %s", file.path, ours)
				}
			}
		}
	})
	if seen == 0 {
		t.Error("no import was looked at")
	}
}

// The pure rooms have no clock, no files and no dice of their own.
func TestTheoryIsPure(t *testing.T) {
	for _, room := range []string{"theory", "theory/fret", "theory/read", "theory/say", "theory/song", "theory/song/arrange", "theory/song/musicxml"} {
		sourcesOf(t, room, func(file source) {
			for _, spec := range file.Imports {
				name, _ := strconv.Unquote(spec.Path.Value)
				if slices.Contains([]string{"os", "io", "time", "net", "math/rand", "math/rand/v2", "syscall"}, name) {
					t.Errorf("%s imports %s", file.path, name)
				}
			}
		})
	}
}

// ofTheory is what screens may take from theory: what is drawn and chosen from. Whatever reads, names,
// finds or spells is asked of drills.
var ofTheory = map[string][]string{
	"theory": {"Clean", "Clip", "Spoken", "StandardA4"},
	"fret":   {"MisfitError", "Muted", "Shape", "StringTone", "Swap", "Tuning", "Tunings", "Voicing"},
}

func TestScreensHoldNoMusic(t *testing.T) {
	seen := 0
	look := func(file source) {
		for _, spec := range file.Imports {
			if strings.HasPrefix(spec.Path.Value, `"sparetone/theory`) && spec.Name != nil {
				t.Errorf("%s imports %s under another name", file.path, spec.Path.Value)
			}
		}
		ast.Inspect(file.File, func(n ast.Node) bool {
			sel, ok := n.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			if room, ok := sel.X.(*ast.Ident); ok && ofTheory[room.Name] != nil {
				seen++
				if !slices.Contains(ofTheory[room.Name], sel.Sel.Name) {
					t.Errorf("%s uses %s.%s", file.at(sel.Pos()), room.Name, sel.Sel.Name)
				}
			}
			return true
		})
	}
	for _, room := range []string{"tui", "tui/lines", "tui/page", "tui/page/asking", "tui/page/home", "tui/page/songs", "tui/page/trying", "tui/draw"} {
		sourcesOf(t, room, look)
	}
	if seen == 0 {
		t.Error("nothing was looked at")
	}
}
