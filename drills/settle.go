package drills

import "slices"

// Toss picks the n-th number below a limit on which the answer depends, beside what is asked for. Questions that are
// made with the same Anew have the same ones.
func (r *Request) Toss(n, limit int) int {
	if r.Anew == nil {
		return r.Rand.IntN(limit)
	}
	for len(r.Anew.tossed) <= n {
		r.Anew.tossed = append(r.Anew.tossed, r.Anew.rng.IntN(limit))
	}
	return r.Anew.tossed[n]
}

// Settle returns the choices that a question has, and sets what it asks for. Without Anew both stay as they are.
func (r *Request) Settle(choices []Target) []Target {
	if r.Anew == nil {
		return choices
	}
	if r.Anew.among == nil {
		var may []string
		for _, t := range choices {
			r.Anew.among = append(r.Anew.among, t.ID)
			if t.ID == r.Target || r.Anew.may(t.ID) {
				may = append(may, t.ID)
			}
			r.Anew.anyNew = r.Anew.anyNew || r.Anew.isNew != nil && r.Anew.isNew(t.ID)
		}
		r.Anew.target = may[r.Anew.rng.IntN(len(may))]
	}
	r.Target = r.Anew.target
	if r.Anew.anyNew {
		r.Clarity, r.Reach, r.First = r.Anew.first.Clarity, r.Anew.first.Reach, true
	}
	return choices
}

// Among returns the targets that were settled on before, by their ids; nil if nothing was.
func (r *Request) Among() []string {
	if r.Anew == nil {
		return nil
	}
	return r.Anew.among
}

// Settled returns those of the targets that were settled on before; nil if nothing was.
func (r *Request) Settled(all []Target) []Target {
	var out []Target
	for _, id := range r.Among() {
		if i := slices.IndexFunc(all, func(t Target) bool { return t.ID == id }); i >= 0 {
			out = append(out, all[i])
		}
	}
	return out
}

// AnyFirst reports whether any of some choices was never asked.
func (r Request) AnyFirst(choices []Target) bool {
	return r.First || r.Anew != nil && r.Anew.isNew != nil && slices.ContainsFunc(choices, func(t Target) bool { return r.Anew.isNew(t.ID) })
}
