package sparetone_test

import (
	"cmp"
	"go/ast"
	"slices"
	"testing"
)

// mostLines is how many lines of code a room has at the most, its tests apart, and mostUpwards how many of a hundred arrows within a room,
// from a file to another that declares what it names, run back up in the best order of its files.
const (
	mostLines   = 3000
	mostUpwards = 10
)

// tooLarge are the rooms that have more lines than a room should, and how many they had when that was last looked at. They may shrink and
// not grow by more than a file: whatever is new comes as a room of its own.
var tooLarge = map[string]int{}

// spareLines is by how many lines a room that is too large may differ from what is listed.
const spareLines = 250

// backUp are the rooms in which more arrows run back up than should, and how many. Most are sentences, which stand in one file a room
// beside the facts that go into them, and name their types.
var backUp = map[string]int{}

func TestRoomsAreSmallAndRunDown(t *testing.T) {
	for room := range mayImport {
		lines, arrows := filesOf(t, room)
		listed, isLarge := tooLarge[room]
		switch {
		case !isLarge && lines > mostLines:
			t.Errorf("%s has %d lines, more than %d: part it along a seam", room, lines, mostLines)
		case isLarge && (lines > listed+spareLines || lines < listed-spareLines || lines <= mostLines):
			t.Errorf("%s has %d lines, and %d are listed: it may not grow, and where it has shrunk that is to be listed", room, lines, listed)
		}
		all := 0
		for _, to := range arrows {
			all += len(to)
		}
		up := upwards(arrows)
		allowed, isListed := backUp[room]
		switch over := up > 0 && 100*up >= mostUpwards*all; {
		case over && !isListed:
			t.Errorf("%s has %d of %d arrows that run back up: a tenth or more", room, up, all)
		case isListed && up > allowed+1:
			t.Errorf("%s has %d arrows that run back up, and %d are listed", room, up, allowed)
		case isListed && !over:
			t.Errorf("%s has no more than a tenth of its arrows running back up: it need not be listed", room)
		}
	}
}

// filesOf counts the lines of a room's files, and finds for each which other files of the room declare what it names.
func filesOf(t *testing.T, room string) (lines int, arrows map[string]map[string]bool) {
	t.Helper()
	declared, files := map[string]string{}, map[string]*ast.File{}
	sourcesOf(t, room, func(file source) {
		lines += file.set.File(file.Pos()).LineCount()
		files[file.path] = file.File
		for _, d := range file.Decls {
			for _, name := range declaredBy(d) {
				declared[name] = file.path
			}
		}
	})
	arrows = map[string]map[string]bool{}
	for path, file := range files {
		arrows[path] = map[string]bool{}
		for _, name := range file.Unresolved { // what a file names and neither declares nor imports
			if of, ok := declared[name.Name]; ok && of != path {
				arrows[path][of] = true
			}
		}
	}
	return lines, arrows
}

// declaredBy lists the names that a declaration gives to a whole room.
func declaredBy(d ast.Decl) (names []string) {
	switch d := d.(type) {
	case *ast.FuncDecl:
		if d.Recv == nil {
			names = append(names, d.Name.Name)
		}
	case *ast.GenDecl:
		for _, s := range d.Specs {
			switch s := s.(type) {
			case *ast.TypeSpec:
				names = append(names, s.Name.Name)
			case *ast.ValueSpec:
				for _, n := range s.Names {
					names = append(names, n.Name)
				}
			}
		}
	}
	return names
}

// upwards counts the arrows that run back up where files stand in a good order: those that name most others first, and then one file after
// another put where the fewest do, as long as that helps.
func upwards(arrows map[string]map[string]bool) (up int) {
	var order []string
	for file := range arrows {
		order = append(order, file)
	}
	balance := map[string]int{} // how many others a file names, less how many name it
	for file, of := range arrows {
		balance[file] += len(of)
		for other := range of {
			balance[other]--
		}
	}
	slices.SortFunc(order, func(a, b string) int { return cmp.Or(balance[b]-balance[a], cmp.Compare(a, b)) })
	down := func(a, b string) int { // how many more run down where a stands before b
		n := 0
		if arrows[a][b] {
			n++
		}
		if arrows[b][a] {
			n--
		}
		return n
	}
	for helped := true; helped; {
		helped = false
		for at := range len(order) {
			file := order[at]
			best, to, gain := 0, at, 0
			for n := at - 1; n >= 0; n-- {
				if gain += down(file, order[n]); gain > best {
					best, to = gain, n
				}
			}
			gain = 0
			for n := at + 1; n < len(order); n++ {
				if gain += down(order[n], file); gain > best {
					best, to = gain, n
				}
			}
			if best > 0 {
				order = slices.Insert(slices.Delete(slices.Clone(order), at, at+1), to, file)
				helped = true
			}
		}
	}
	for n, file := range order {
		for _, above := range order[:n] {
			if arrows[file][above] {
				up++
			}
		}
	}
	return up
}

// What is counted of arrows, in three files of which each names the next, and in a circle of them.
func TestUpwards(t *testing.T) {
	chain := map[string]map[string]bool{"c": {"a": true}, "a": {"b": true}, "b": {}}
	if got := upwards(chain); got != 0 {
		t.Errorf("%d arrows of a chain run up", got)
	}
	chain["b"]["c"] = true
	if got := upwards(chain); got != 1 {
		t.Errorf("%d arrows of a circle run up, want 1", got)
	}
}
