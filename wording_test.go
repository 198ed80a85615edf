package sparetone_test

import (
	"go/ast"
	"path"
	"regexp"
	"strconv"
	"testing"
)

// saysTogether are rooms that have every sentence in their sentences.go.
var saysTogether = []string{"tui/page", "tui/page/asking", "tui/page/home", "tui/page/songs", "tui/page/trying"}

// word is found in a text that says something, beside the facts that go into it.
var word = regexp.MustCompile(`\pL{2}`)

func TestSentencesStandTogether(t *testing.T) {
	for _, room := range saysTogether {
		together := 0
		sourcesOf(t, room, func(file source) {
			ast.Inspect(file.File, func(n ast.Node) bool {
				call, ok := n.(*ast.CallExpr)
				if !ok || len(call.Args) == 0 {
					return true
				}
				sel, ok := call.Fun.(*ast.SelectorExpr)
				if !ok {
					return true
				}
				of, ok := sel.X.(*ast.Ident)
				if !ok || of.Name != "say" || sel.Sel.Name != "Of" && sel.Sel.Name != "Sentence" {
					return true
				}
				text, ok := call.Args[0].(*ast.BasicLit)
				if !ok {
					return true
				}
				switch said, _ := strconv.Unquote(text.Value); {
				case !word.MatchString(said):
				case path.Base(file.path) == "sentences.go":
					together++
				default:
					t.Errorf("%s: %s does not stand in sentences.go", file.at(text.Pos()), text.Value)
				}
				return true
			})
		})
		if together == 0 {
			t.Errorf("%s: no sentence was found", room)
		}
	}
}
