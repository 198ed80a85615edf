package records

import (
	"sparetone/cmd/sparetone/command"
	"sparetone/progress/memory"
)

// ForetoldRow is what became of answers that were held for right with a chance between two bounds, as --json prints it.
type ForetoldRow struct {
	Part     string  `json:"part"` // foretold
	Name     string  `json:"name"` // eye or ear
	From     float64 `json:"from"` // chance
	To       float64 `json:"to"`
	Foretold float64 `json:"foretold"` // on the average
	Asked    int     `json:"asked"`    // ever
	Right    int     `json:"right"`
	Low      float64 `json:"low"` // the ends of the 95 % interval of their share
	High     float64 `json:"high"`
}

// foretold lists what became of answers by what was foretold of them, what is seen first, the likeliest first.
func foretold(known *memory.Derived) (rows []ForetoldRow) {
	for _, by := range []struct {
		name string
		is   memory.Calibration
	}{{"eye", known.ByEye}, {"ear", known.ByEar}} {
		for n := len(by.is) - 1; n >= 0; n-- {
			f := by.is[n]
			if f.Asked == 0 {
				continue
			}
			rate := memory.RateOf(memory.Tally{Asked: f.Asked, Right: f.Right})
			rows = append(rows, ForetoldRow{"foretold", by.name, float64(n) / float64(len(by.is)), float64(n+1) / float64(len(by.is)),
				f.Sum / float64(f.Asked), f.Asked, f.Right, rate.Low, rate.High})
		}
	}
	return rows
}

// sayForetold writes how far what was foretold holds, where enough answers say so.
func sayForetold(o *command.Output, rows []ForetoldRow) {
	said := false
	for _, r := range rows {
		if r.Asked < memory.Enough {
			continue
		}
		if !said {
			o.Printf("\nHow well your answers were foretold:\n")
			said = true
		}
		o.Printf("  by %s, of what you were thought to answer right %.0f times in 100:\n    %s right\n", r.Name, 100*r.Foretold, Rate(r.Right, r.Asked))
	}
}
