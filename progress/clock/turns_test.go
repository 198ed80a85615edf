package clock

import (
	"fmt"
	"math"
	"slices"
	"testing"
)

// historyOf makes a history of answers on days, those of one machine, whose ids begin with its letter.
func historyOf(machine byte, days ...int) (h []Arrival) {
	for i, day := range days {
		h = append(h, Arrival{N: int64(i + 1), At: Writable(evening.AddDate(0, 0, day)).UnixMilli(), Id: [16]byte{machine, byte(i)}})
	}
	return h
}

// Each answer's turn comes with one that is believed: its own, or the one it was given after.
func TestWhoseTurnComesWhen(t *testing.T) {
	for _, c := range []struct {
		what string
		days []int
		now  int
		want []string // the place in the history of the answer with whose time its turn comes, and before it (-) or after it (+)
	}{
		{"day after day", []int{0, 1, 2}, 2, []string{"0", "1", "2"}},
		{"a step back of hours or a day", []int{0, 2, 1, 3}, 3, []string{"0", "1", "1+", "3"}},
		{"1970 in between", []int{0, -20516, 1}, 1, []string{"0", "0+", "2"}},
		{"ahead in between", []int{0, 3650, 3651, 1}, 1, []string{"0", "0+", "0+", "3"}},
		{"ahead at the end, and the clock is right now", []int{0, 3650}, 1, []string{"0", "0+"}},
		{"ahead at the end, and the clock is ahead as well", []int{0, 3650}, 3650, []string{"0", "1"}},
		{"the clock was never set now", []int{0, 1}, -20516, []string{"0", "1"}},
		{"1970 at first", []int{-20516, -20515, 0}, 0, []string{"2-", "2-", "2"}},
		{"1970 and nothing else", []int{-20516, -20515}, 0, []string{"end", "end+"}},
		{"nothing", nil, 0, nil},
	} {
		h := historyOf('a', c.days...)
		var got []string
		for _, turn := range Turns(h, evening.AddDate(0, 0, c.now)) {
			name := map[int64]string{math.MaxInt64: "end"}[turn.at]
			if i := slices.IndexFunc(h, func(a Arrival) bool { return a.At == turn.at && a.Id == turn.id }); i >= 0 {
				name = fmt.Sprint(i)
			}
			got = append(got, name+map[int]string{-1: "-", 1: "+"}[turn.place])
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.what, got, c.want)
		}
	}
}

// A turn is by time, then by the answer's id, then by what stands before an answer, it, and what stands after it.
func TestTurnsFollowEachOther(t *testing.T) {
	in := []Turn{{1, [16]byte{9}, 1}, {2, [16]byte{3}, 0}, {2, [16]byte{4}, -1}, {2, [16]byte{4}, 0}, {2, [16]byte{4}, 1}, {3, [16]byte{1}, -1}}
	for i, a := range in {
		for j, b := range in {
			if got := a.Compare(b); got != i-j && (got < 0) != (i < j) {
				t.Errorf("%v and %v: %d", a, b, got)
			}
		}
	}
}
