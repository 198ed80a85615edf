package progress

import (
	"fmt"
	"strconv"
	"strings"
)

// TakenBack counts what was played on an instrument or sung, and taken back: of itself nothing is kept.
type TakenBack struct {
	Heard   int `json:"heard"`   // before it counted, such as what was misheard
	Counted int `json:"counted"` // after it counted, when what would have been right was shown
}

// IsZero reports whether nothing was taken back.
func (t TakenBack) IsZero() bool { return t == TakenBack{} }

// Plus returns both together.
func (t TakenBack) Plus(o TakenBack) TakenBack {
	return TakenBack{t.Heard + o.Heard, t.Counted + o.Counted}
}

// String writes it as a setting keeps it, such as 2 1.
func (t TakenBack) String() string { return fmt.Sprint(t.Heard, t.Counted) }

// ParseTakenBack reads what String writes; of anything else, or less than nothing, it is zero.
func ParseTakenBack(s string) TakenBack {
	first, second, both := strings.Cut(s, " ")
	heard, wrong := strconv.Atoi(first)
	counted, amiss := strconv.Atoi(second)
	if !both || wrong != nil || amiss != nil || heard < 0 || counted < 0 {
		return TakenBack{}
	}
	return TakenBack{heard, counted}
}
