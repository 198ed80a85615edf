package hear

// Meter measures how loud sound is that is fed block by block, and its noise. It is not for two goroutines at once.
type Meter struct{ meter }

// NewMeter returns a meter for so many samples a second.
func NewMeter(rate float64) *Meter { return &Meter{newMeter(rate)} }

// Feed measures the samples that come next.
func (m *Meter) Feed(samples []float64) { m.feed(samples) }

// Level returns how loud it is now.
func (m *Meter) Level() Level { return m.now() }

// Clean is how many dB the noise must lie below a note for its pitch to be told to a few cents. With less, quiet is asked for.
const Clean = 20.0
