package sparetone_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// saysTogether are rooms that have every sentence in their sentences.go.
var saysTogether = []string{"tui/page", "tui/page/asking", "tui/page/home", "tui/page/songs", "tui/page/trying"}

// word is found in a text that says something, beside the facts that go into it.
var word = regexp.MustCompile(`\pL{2}`)

func TestSentencesStandTogether(t *testing.T) {
	for _, room := range saysTogether {
		paths, err := filepath.Glob(room + "/*.go")
		if err != nil {
			t.Fatal(err)
		}
		together := 0
		for _, path := range paths {
			if strings.HasSuffix(path, "_test.go") {
				continue
			}
			fset := token.NewFileSet()
			file, err := parser.ParseFile(fset, path, nil, 0)
			if err != nil {
				t.Fatal(err)
			}
			ast.Inspect(file, func(n ast.Node) bool {
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
				case filepath.Base(path) == "sentences.go":
					together++
				default:
					t.Errorf("%s: %s does not stand in sentences.go", fset.Position(text.Pos()), text.Value)
				}
				return true
			})
		}
		if together == 0 {
			t.Errorf("%s: no sentence was found", room)
		}
	}
}
