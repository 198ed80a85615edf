package synth

import (
	"math/rand/v2"
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
			score := Hand{Ring: 2 * time.Minute}.Block(sounding(b, "4:G4 3:C4 2:E4 1:C5"))
			strings, count := oneHalf(score, v, 440)
			var mix [Chunk]float64
			b.ReportAllocs()
			for b.Loop() {
				if strings.at+Chunk > int(SampleRate)*10 { // from the pluck again, before strings fall silent
					b.StopTimer()
					strings, _ = oneHalf(score, v, 440)
					b.StartTimer()
				}
				strings.next(mix[:])
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*Chunk*count), "ns/string-sample")
		})
	}
}

// BenchmarkStrum reports how many times faster than it lasts a strum is played, plucks and body included.
func BenchmarkStrum(b *testing.B) {
	score := strum(b)
	var mix [Chunk]float64
	for b.Loop() {
		for strings, _ := oneHalf(score, voices[0], 440); strings.at < SampleRate.N(score.Length); {
			strings.next(mix[:])
		}
	}
	b.ReportMetric(score.Length.Seconds()*float64(b.N)/b.Elapsed().Seconds(), "x-realtime")
}

// BenchmarkSong reports the same of a song that is played as it is heard, every stroke of it plucked.
func BenchmarkSong(b *testing.B) {
	score := song(b, 15, rand.New(rand.NewPCG(1, 1)))
	frames := make([][2]float64, Chunk)
	for b.Loop() {
		b.StopTimer()
		s := streamed(score, voices[0], 440)
		b.StartTimer()
		for ok := true; ok; {
			_, ok = s.Stream(frames)
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
