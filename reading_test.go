package sparetone_test

import (
	"go/ast"
	"go/token"
	"testing"
)

// readsPrinted are the functions that may compare with printed sentences, and why.
var readsPrinted = map[string]string{
	"theory/say/text.go Equal":   "tells whether two texts say the same",
	"theory/say/text.go Words":   "counts how many words it takes to say a text",
	"theory/read/text.go Names":  "reads what somebody typed, who may type a text as it is shown or said",
	"theory/read/text.go Begins": "reads what somebody typed, who may begin a text as it is shown or said",
}

// printed reports whether an expression holds a sentence that was printed.
func printed(e ast.Node) bool {
	found := false
	ast.Inspect(e, func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok || len(call.Args) != 0 {
			return true
		}
		if sel, ok := call.Fun.(*ast.SelectorExpr); ok && (sel.Sel.Name == "Screen" || sel.Sel.Name == "Aloud" || sel.Sel.Name == "Sheet") {
			found = true
		}
		return true
	})
	return found
}

// takesApart are packages whose functions look into a string or compare it; these of theirs only put strings together.
var takesApart = map[string][]string{"strings": {"Join", "Repeat"}, "regexp": nil, "slices": nil, "read": nil}

// Nobody reads a printed sentence again: outside theory/read and the printers none is compared or cut.
func TestNobodyReadsPrintedEnglish(t *testing.T) {
	met := map[string]bool{}
	eachSource(t, func(file source) {
		for _, decl := range file.Decls {
			f, ok := decl.(*ast.FuncDecl)
			if !ok {
				continue
			}
			where := file.path + " " + f.Name.Name
			ast.Inspect(f, func(n ast.Node) bool {
				reads := false
				switch n := n.(type) {
				case *ast.BinaryExpr:
					reads = (n.Op == token.EQL || n.Op == token.NEQ) && (printed(n.X) || printed(n.Y))
				case *ast.CallExpr:
					reads = callReads(n)
				}
				if !reads {
					return true
				}
				met[where] = true
				if readsPrinted[where] == "" {
					t.Errorf("%s: %s reads a sentence that was printed", file.at(n.Pos()), f.Name.Name)
				}
				return true
			})
		}
	})
	for where := range readsPrinted {
		if !met[where] {
			t.Errorf("%s reads none any more: take it off the list", where)
		}
	}
}

// callReads reports whether a call looks into a printed sentence.
func callReads(call *ast.CallExpr) bool {
	switch fun := call.Fun.(type) {
	case *ast.Ident:
		if fun.Name != "sameWords" && fun.Name != "begins" {
			return false
		}
	case *ast.SelectorExpr:
		room, ok := fun.X.(*ast.Ident)
		if !ok {
			return false
		}
		together, looks := takesApart[room.Name]
		if !looks {
			return false
		}
		for _, name := range together {
			if fun.Sel.Name == name {
				return false
			}
		}
	default:
		return false
	}
	for _, arg := range call.Args {
		if printed(arg) {
			return true
		}
	}
	return false
}
