package synth

import (
	"testing"
	"time"
)

// strum is the four-string strum that costs are measured on: 3 s of C on a ukulele.
func strum(b *testing.B) Score {
	return Hand{}.Strum(sounding(b, "4:G4 3:C4 2:E4 1:C5"))
}

// BenchmarkString reports what one string costs a sample while it rings, body included. A string of a
// course is a string.
func BenchmarkString(b *testing.B) {
	for _, v := range Voices() {
		b.Run(v.Name(), func(b *testing.B) {
			p := newPlaying(Hand{Ring: 2 * time.Minute}.Block(sounding(b, "4:G4 3:C4 2:E4 1:C5")), v, 440)
			var made [Chunk]float32
			b.ReportAllocs()
			for b.Loop() {
				if p.at()+Chunk > int(SampleRate)*10 { // from the pluck again, before strings fall silent
					b.StopTimer()
					p = newPlaying(Hand{Ring: 2 * time.Minute}.Block(sounding(b, "4:G4 3:C4 2:E4 1:C5")), v, 440)
					b.StartTimer()
				}
				p.next(made[:])
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*Chunk*len(p.ringing)), "ns/string-sample")
		})
	}
}

// BenchmarkStrum reports how many times faster than it lasts a strum is played, plucks and body included.
func BenchmarkStrum(b *testing.B) {
	score := strum(b)
	var made [Chunk]float32
	for b.Loop() {
		for p := newPlaying(score, voices[0], 440); p.at() < p.length; {
			p.next(made[:])
		}
	}
	b.ReportMetric(score.Length.Seconds()*float64(b.N)/b.Elapsed().Seconds(), "x-realtime")
}

// BenchmarkRender reports the same with loudness and true peak measured and set.
func BenchmarkRender(b *testing.B) {
	score := strum(b)
	for b.Loop() {
		if _, err := Render(score, voices[0], Options{}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(score.Length.Seconds()*float64(b.N)/b.Elapsed().Seconds(), "x-realtime")
}
