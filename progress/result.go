package progress

import "fmt"

// Result is what came of an answer. The zero value is no result at all.
type Result int

const (
	Wrong Result = iota + 1
	Partly
	Right
)

var resultNames = [...]string{Wrong: "wrong", Partly: "partly", Right: "right"}

// String returns wrong, partly or right.
func (r Result) String() string {
	if !r.valid() {
		return fmt.Sprintf("Result(%d)", int(r))
	}
	return resultNames[r]
}

func (r Result) valid() bool { return r >= Wrong && r <= Right }

// ParseResult reads what String writes.
func ParseResult(s string) (Result, error) {
	for r := Wrong; r <= Right; r++ {
		if resultNames[r] == s {
			return r, nil
		}
	}
	return 0, fmt.Errorf("result is right, partly or wrong, not %q", Short(s))
}
