package exchange

import (
	"strings"
	"testing"

	"sparetone/progress"
	"sparetone/progress/exported"
)

// Of several students whose machines lie in one folder, one whose imports said of all others that they are the same comes first, and all are one;
// whoever is left out, or speaks of others from outside, joins nobody.
func TestStudentsAreJoinedByOneOfThem(t *testing.T) {
	type says struct{ of, mine string }
	for _, row := range []struct {
		name, students string
		said           []says
		joined         bool
		then           string
	}{
		{"nothing was said", "A B", nil, false, "A B"},
		{"the first said it", "A B", []says{{"A", "B"}}, true, "A B"},
		{"the second said it", "A B", []says{{"B", "A"}}, true, "B A"},
		{"the last said it, in two imports", "A B C", []says{{"C", "A"}, {"C", "B"}}, true, "C B A"},
		{"one of two is left out", "A B C", []says{{"C", "A"}}, false, "A B C"},
		{"each of another", "A B C", []says{{"A", "B"}, {"B", "C"}}, false, "A B C"},
		{"somebody else said it", "A B", []says{{"D", "A B"}}, false, "A B"},
	} {
		var students []progress.Whose
		for _, id := range strings.Fields(row.students) {
			students = append(students, progress.Whose{ID: id})
		}
		a := &aligning{done: &Aligned{}}
		for _, s := range row.said {
			a.done.Files = append(a.done.Files, FileTaken{File: &MachineFile{head: machineLine{Owner: exported.Owner{File: s.of}}, imports: []noteOf{{note: note{Mine: strings.Fields(s.mine)}}}}})
		}
		joined := a.joined(students)
		var then []string
		for _, w := range students {
			then = append(then, w.ID)
		}
		if got := strings.Join(then, " "); joined != row.joined || got != row.then {
			t.Errorf("%s: joined %v as %s, want %v as %s", row.name, joined, got, row.joined, row.then)
		}
	}
}

// A line that begins as answers do and breaks off is an error.
func TestAShortAnswerIsRefused(t *testing.T) {
	f := takingFile{aligning: &aligning{}}
	for _, line := range []string{answerID, answerID + `ab"}`, answerID + strings.Repeat("a", 32)} {
		if err := f.answer([]byte(line)); err == nil || len(f.fresh) != 0 {
			t.Errorf("%s: %v, %d answers", line, err, len(f.fresh))
		}
	}
}
