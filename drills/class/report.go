package class

import (
	"cmp"
	"fmt"
	"path"
	"slices"
	"strings"

	"sparetone/progress"
	"sparetone/progress/memory"
	"sparetone/theory"

	"golang.org/x/text/collate"
	"golang.org/x/text/language"
)

// Report is what there is to say of a class.
type Report struct {
	Today    progress.Day
	Since    progress.Day // 0 if nothing is said of a change
	Students []*Student   // silent ones first, longest silent first; then by name
	Weak     []Weakness   // what most students are weak at first
	Groups   [3]Group
	Play     []Play // in the next lesson
	Ever     memory.Tally
	Problems []Problem
}

// Weakness is a thing that students are weak at, counted by students and not by answers.
type Weakness struct {
	*Thing
	Tested    int     // students who were asked it so often that something could be said
	Weak      int     // of these, weak at it
	Low, High float64 // ends of the 95 % interval of their share, were this class drawn from many like it
	Chance    int     // of the weak, right no more often than by guessing
	Mostly    string  // what most of the weak take it for, two at the least; "" if nothing
	Students  []string
}

// callTheRoll gives students names that tell them apart, and adds those of the roster of whom there is no file.
func (r *Report) callTheRoll(roster []string) {
	byName := map[string][]*Student{}
	fold := func(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }
	for _, s := range r.Students {
		if strings.TrimSpace(s.Name) == "" {
			s.Name = theory.Clean(strings.TrimSuffix(path.Base(s.Files[0]), path.Ext(s.Files[0])))
		}
		byName[fold(s.Name)] = append(byName[fold(s.Name)], s)
	}
	called := map[string]bool{}
	for _, name := range roster {
		called[fold(name)] = true
		if byName[fold(name)] == nil {
			r.Students = append(r.Students, &Student{Name: name, Listed: true, Finding: Finding{Verdict: Silent, Never: true}})
		}
	}
	for _, s := range r.Students {
		alike := byName[fold(s.Name)]
		s.Listed = roster == nil || called[fold(s.Name)] || s.ID == ""
		if len(alike) > 1 && s == alike[0] {
			var files []string
			for _, a := range alike {
				files = append(files, theory.Clean(a.Files[0]))
			}
			r.Problems = append(r.Problems, Problem{"", fmt.Sprintf("%d students are called %s (%s): they count apart, each with its file beside the name", len(alike), s.Name, strings.Join(files, ", ")), true})
		}
	}
	for _, alike := range byName {
		if len(alike) > 1 {
			for _, s := range alike {
				s.Name += " (" + theory.Clean(s.Files[0]) + ")"
			}
		}
	}
	for _, s := range r.Students {
		if !s.Listed {
			r.Problems = append(r.Problems, Problem{theory.Clean(s.Files[0]), s.Name + " is not on the roster; counted all the same", true})
		}
	}
}

// sum puts together what there is to say of all.
func (r *Report) sum() {
	alphabet := collate.New(language.Und, collate.IgnoreCase) // É stands beside E, Ł beside L
	slices.SortStableFunc(r.Students, func(a, b *Student) int {
		silent := func(s *Student) int { return map[bool]int{false: 1}[s.IsSilent()] }
		when := 0
		if a.IsSilent() && b.IsSilent() {
			when = cmp.Compare(a.Last, b.Last)
		}
		return cmp.Or(cmp.Compare(silent(a), silent(b)), when, alphabet.CompareString(a.Name, b.Name), strings.Compare(a.ID, b.ID))
	})
	slices.SortStableFunc(r.Problems, func(a, b Problem) int { return strings.Compare(a.File, b.File) })
	for _, s := range r.Students {
		r.Ever.Asked, r.Ever.Right, r.Ever.Guessed = r.Ever.Asked+s.Ever.Asked, r.Ever.Right+s.Ever.Right, r.Ever.Guessed+s.Ever.Guessed
	}
	r.Weak = weaknesses(r.Students)
	r.group()
	r.toPlay()
}

// weaknesses counts by students what they are weak at.
func weaknesses(students []*Student) []Weakness {
	of := map[string]*Weakness{}
	mostly := map[string]map[string]int{}
	for _, s := range students {
		for _, i := range s.Items {
			if !i.Tested || !i.Known {
				continue
			}
			w := of[i.Item]
			if w == nil {
				w = &Weakness{Thing: i.Thing}
				of[i.Item], mostly[i.Item] = w, map[string]int{}
			}
			w.Tested++
			if !i.Weak {
				continue
			}
			w.Weak++
			w.Students = append(w.Students, s.Name)
			if i.Chance {
				w.Chance++
			}
			if i.Mostly != "" {
				mostly[i.Item][i.Mostly]++
			}
		}
	}
	var out []Weakness
	for item, w := range of {
		if w.Weak == 0 {
			continue
		}
		rate := memory.RateOf(memory.Tally{Asked: w.Tested, Right: w.Weak})
		w.Low, w.High = rate.Low, rate.High
		for name, n := range mostly[item] {
			if n >= 2 && 2*n > w.Weak {
				w.Mostly = name
			}
		}
		out = append(out, *w)
	}
	slices.SortFunc(out, func(a, b Weakness) int {
		return cmp.Or(cmp.Compare(b.Weak, a.Weak), cmp.Compare(a.Tested, b.Tested), strings.Compare(a.Thing.Item, b.Thing.Item))
	})
	return out
}

// Problem is a file that does not count, or something about one that has to be known, in one line.
type Problem struct {
	File   string // "" where it is about several
	Says   string
	Counts bool // it counts all the same
}
