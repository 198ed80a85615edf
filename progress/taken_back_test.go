package progress

import "testing"

func TestTakenBack(t *testing.T) {
	for typed, want := range map[string]TakenBack{"2 1": {2, 1}, "0 0": {}, "0 3": {0, 3}, "": {}, "2": {}, "2 x": {}, "x 2": {}, "-1 2": {}, "1 -2": {}, "1 2 3": {}} {
		got := ParseTakenBack(typed)
		if got != want {
			t.Errorf("%q is %+v, want %+v", typed, got, want)
		}
		if got.IsZero() != (want == TakenBack{}) || ParseTakenBack(got.String()) != got {
			t.Errorf("%q: zero %v, written %q", typed, got.IsZero(), got)
		}
	}
	if got := (TakenBack{2, 1}).Plus(TakenBack{30, 500}); got != (TakenBack{32, 501}) {
		t.Errorf("%+v", got)
	}
}
