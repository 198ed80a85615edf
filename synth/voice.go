package synth

import (
	"fmt"
	"math"
	"strings"
)

// Voice is an instrument: what its strings and its body are like. Voices are the rows of one table.
type Voice struct {
	Name  string // what a person types
	Title string // what a person reads

	inner, linear, air float64
}

var voices = []*Voice{
	{Name: "ukulele", Title: "small body, nylon strings", inner: 1e-6, linear: 6e-4, air: 1.5},
	{Name: "guitar", Title: "large body, nylon strings", inner: 1e-6, linear: 5e-4, air: 0.9},
	{Name: "steel", Title: "large body, steel strings", inner: 3e-7, linear: 1e-4, air: 0.6},
	{Name: "tone", Title: "plain tone of six partials", inner: 3e-7, linear: 1e-4, air: 0.6},
}

// Voices returns every voice there is; the first is the one to begin with.
func Voices() []*Voice { return voices }

// VoiceByName returns the voice of that name; the error lists the names there are.
func VoiceByName(name string) (*Voice, error) {
	var names []string
	for _, v := range voices {
		if v.Name == name {
			return v, nil
		}
		names = append(names, v.Name)
	}
	return nil, fmt.Errorf("%q is not a voice: it is one of %s", name, strings.Join(names, ", "))
}

func (v *Voice) decay(f float64) float64 {
	return v.air + math.Pi*f*v.linear + v.inner*f*f
}
