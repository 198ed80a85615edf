package song

import "testing"

// A line of the header is one word before a colon; what has spaces, bars or brackets before it, or nothing, is none.
func TestLinesOfTheHeaderAreCutAtTheColon(t *testing.T) {
	for _, row := range []struct {
		line, name, value string
		is                bool
	}{
		{"key: C", "key", "C", true},
		{"  key :  C  ", "key", "C", true},
		{"title: a: b", "title", "a: b", true},
		{"key:", "key", "", true},
		{"key C", "", "", false},
		{": C", "", "", false},
		{"", "", "", false},
		{"two words: C", "", "", false},
		{"|: C :|", "", "", false},
		{"[C]oh: no", "", "", false},
	} {
		name, value, is := cutHeader(rowOf(row.line))
		if name != row.name || text(value) != row.value || is != row.is {
			t.Errorf("%q: %q, %q, %v", row.line, name, text(value), is)
		}
	}
}
