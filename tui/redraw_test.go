package tui

import (
	"slices"
	"testing"
	"time"
)

// How long a key takes until the screen is drawn anew at 200 by 50, a thousand times over all screens;
// 99 % of them within the figure reported.
func BenchmarkKeyRedraw(b *testing.B) {
	var apps []*app
	for _, s := range scenes() {
		apps = append(apps, sized(s.set(b), 200, 50))
	}
	keys := []string{"down", "right", "up", "left", "tab", "o"}
	var took []time.Duration
	for b.Loop() {
		took = took[:0]
		for n := range 1000 {
			a := apps[n%len(apps)]
			start := time.Now()
			a.Update(pressed(keys[n%len(keys)]))
			a.View()
			took = append(took, time.Since(start))
		}
	}
	slices.Sort(took)
	b.ReportMetric(took[len(took)/2].Seconds()*1e3, "ms-half")
	b.ReportMetric(took[len(took)*99/100].Seconds()*1e3, "ms-99%")
	b.ReportMetric(0, "ns/op")
}
