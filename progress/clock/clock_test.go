package clock

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/progress"

	"pgregory.net/rapid"
)

// aDay0 is the day from which the days of these tests are counted.
var aDay0 = UTCDay(time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC))

// daily counts days up.
func daily(from, to int) (days []int) {
	for d := from; d <= to; d++ {
		days = append(days, d)
	}
	return days
}

// runsOf are runs on days counted from 2 March 2026.
func runsOf(days []int) (runs []Run) {
	for i, d := range days {
		runs = append(runs, Run{int64(i), aDay0 + progress.Day(d)})
	}
	return runs
}

// Each history is days of practice in the order they were; what is doubted is named by its place, counted from 0.
func TestWhichDaysAreBelieved(t *testing.T) {
	const year = 365
	for _, c := range []struct {
		what    string
		days    []int
		doubted []int
	}{
		{"nothing", nil, nil},
		{"one day", []int{5}, nil},
		{"day after day", daily(1, 40), nil},
		{"with pauses of months and years", []int{1, 2, 90, 91, 5 * year, 20 * year}, nil},
		{"a day back, such as across the date line", []int{1, 2, 3, 2, 3, 4}, nil},
		{"two days back", []int{1, 2, 3, 1, 2, 3, 4}, []int{3}},

		{"ten years ahead once, then right", append(daily(1, 9), 10*year, 10), []int{9}},
		{"ten years ahead once, not yet right again", append(daily(1, 9), 10*year), nil},
		{"ten years ahead for a week, then right", slices.Concat(daily(1, 9), daily(10*year, 10*year+6), []int{17}), daily(9, 15)},
		{"a month ahead for a week, then right", slices.Concat(daily(1, 9), daily(41, 47), []int{17}), daily(9, 15)},
		{"a month ahead, for ten days", slices.Concat(daily(1, 9), daily(39, 48), []int{17}), daily(9, 18)},
		{"for eleven days: at first the later day is doubted", slices.Concat(daily(1, 9), daily(39, 49), []int{17}), []int{20}},
		{"half a year ahead for sixty days of practice, then right", slices.Concat(daily(1, 9), daily(200, 259), []int{70}), daily(9, 68)},
		{"for sixty-one: at first the later day is doubted", slices.Concat(daily(1, 9), daily(200, 260), []int{70}), []int{70}},
		{"until it has as much behind it", slices.Concat(daily(1, 9), daily(200, 260), daily(70, 71)), daily(9, 69)},
		{"ahead twice", slices.Concat(daily(1, 9), daily(400, 406), []int{17, 18}, daily(400, 406), []int{26}), slices.Concat(daily(9, 15), daily(18, 24))},
		{"ahead every other day", []int{1, 400, 2, 401, 3, 402, 4}, []int{1, 3, 5}},

		{"years back once, then right", append(daily(1, 9), -9*year, 10), []int{9}},
		{"years back, and still", append(daily(1, 9), -9*year), []int{9}},
		{"years back for a week", slices.Concat(daily(1, 9), daily(-9*year, -9*year+6)), daily(9, 15)},
		{"years back every other day", []int{1, 2, 3, 4, -400, 5, -399, 6, -398, 7}, []int{4, 6, 8}},
		{"back into a pause of years that is no error", slices.Concat(daily(-2*year, -2*year+9), daily(1, 99), []int{-300}), []int{109}},
		{"back into it every other day", slices.Concat(daily(-2*year, -2*year+9), daily(1, 99), []int{-300, 100, -299, 101, -298, 102}), []int{109, 111, 113}},
		{"back within what was practised", append(daily(1, 99), 50), []int{99}},
		{"ahead, and back to long before all that was", append(daily(1, 9), 10*year, -9*year), []int{10}},

		{"ahead from the first answer on, then right", slices.Concat(daily(10*year, 10*year+6), []int{17}), daily(0, 6)},
		{"a year ahead from the first answer on", append(daily(18+year, 24+year), 17), daily(0, 6)},
		{"less than a year ahead from the first answer on: the later day is doubted", append(daily(17+year, 23+year), 17), []int{7}},
		{"of two days the first is believed", []int{50, 17}, []int{1}},
		{"also where the first is years before the second", []int{0, -2600, 1}, []int{1}},
		{"until there are more of the later ones", []int{50, 17, 18}, []int{0}},
		{"right from the first answer on, then back to a time before this program", append(daily(1, 7), -61), []int{7}},
		{"the same on the first day there was this program", append(daily(400, 406), -60), daily(0, 6)},
		{"the same a day before", append(daily(400, 406), -61), []int{7}},
	} {
		var doubted []int
		for i, believed := range believe(runsOf(c.days)) {
			if !believed {
				doubted = append(doubted, i)
			}
		}
		if !slices.Equal(doubted, c.doubted) {
			t.Errorf("%s: %v doubted of %v, want %v", c.what, doubted, c.days, c.doubted)
		}
	}
}

// Of the rows that never go back, none is longer than the one that is believed, as long as no clock comes back into a gap:
// no day lies so far after the one before it that coming back between them would weigh more.
func TestTheLongestRowIsBelieved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		days := rapid.SliceOfN(rapid.IntRange(0, 5), 1, 12).Draw(t, "days")
		for i := 1; i < len(days); i++ {
			days[i] = min(days[i], days[i-1]+daysAWeight-1)
		}
		runs := runsOf(days)
		believed := believe(runs)
		count := 0
		before := -1
		for i, b := range believed {
			if !b {
				continue
			}
			if before >= 0 && days[i] < days[before]-Slack {
				t.Fatalf("%v: %v goes back", days, believed)
			}
			count, before = count+1, i
		}
		longest := 0
		for set := range 1 << len(days) {
			n, last := 0, -1
			for i := range days {
				if set&(1<<i) == 0 {
					continue
				}
				if last >= 0 && days[i] < days[last]-Slack {
					n = -1
					break
				}
				n, last = n+1, i
			}
			longest = max(longest, n)
		}
		if count != longest {
			t.Errorf("%v: %d believed, the longest row has %d", days, count, longest)
		}
	})
}

// Where no clock was wrong nothing is doubted, however long the pauses, in whatever zones and with whatever small
// corrections of a clock.
func TestNothingIsDoubtedWhereNoClockWasWrong(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := evening
		var runs []Run
		for range rapid.IntRange(1, 60).Draw(t, "answers") {
			pause := rapid.SampledFrom([]time.Duration{time.Minute, 20 * time.Hour, 24 * time.Hour, 400 * 24 * time.Hour}).Draw(t, "longest pause")
			at = at.Add(time.Duration(rapid.Int64Range(0, int64(pause)).Draw(t, "pause")))
			wrong := time.Duration(rapid.Int64Range(int64(-12*time.Hour), int64(12*time.Hour)).Draw(t, "wrong by"))
			if day := UTCDay(at.Add(wrong)); len(runs) == 0 || runs[len(runs)-1].Day != day {
				runs = append(runs, Run{int64(len(runs)), day})
			}
		}
		if slices.Contains(believe(runs), false) {
			t.Errorf("%v: %v", runs, believe(runs))
		}
	})
}

// What is judged answer by answer is what is judged of all at once: whatever continues what is believed leaves the rest as
// it was, and whatever does not is either doubted itself or changes all.
func TestOneMoreRun(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		day := rapid.SampledFrom([]func() int{
			func() int { return rapid.IntRange(0, 20).Draw(t, "day") },
			func() int { return rapid.IntRange(3650, 3670).Draw(t, "day ahead") },
			func() int { return rapid.IntRange(-4000, -3990).Draw(t, "day back") },
			func() int { return rapid.IntRange(-4000, 4000).Draw(t, "any day") },
		})
		var days []int
		for range rapid.IntRange(1, 40).Draw(t, "runs") {
			days = append(days, day.Draw(t, "which")())
		}
		before := believe(runsOf(days[:len(days)-1]))
		after := believe(runsOf(days))
		last := -1
		for i, b := range before {
			if b {
				last = i
			}
		}
		now := len(days) - 1
		same := slices.Equal(before, after[:now])
		switch fits := last < 0 || days[now] >= days[last]-Slack; {
		case fits && (!after[now] || !same):
			t.Errorf("%v: %v, then %v", days, before, after)
		case !fits && !after[now] && !same:
			t.Errorf("%v: the last is doubted, and others than before: %v, then %v", days, before, after)
		}
	})
}

func TestTimesThatCanBeWrittenDown(t *testing.T) {
	kiritimati, honolulu := in(t, "Pacific/Kiritimati"), in(t, "Pacific/Honolulu")
	for _, c := range []struct {
		at    time.Time
		want  string
		dated bool
	}{
		{time.Date(2026, 3, 4, 18, 30, 0, 0, time.UTC), "2026-03-04T18:30:00.000Z", true},
		{time.Date(12000, 1, 1, 0, 0, 0, 0, time.UTC), "9999-12-30T23:59:59.999Z", false},
		{time.Date(9999, 12, 31, 12, 0, 0, 0, time.UTC), "9999-12-30T23:59:59.999Z", false},
		{time.Date(9999, 12, 30, 23, 59, 59, 998e6, time.UTC), "9999-12-30T23:59:59.998Z", true},
		{time.Date(9999, 12, 30, 23, 59, 59, 999e6, time.UTC), "9999-12-30T23:59:59.999Z", false},
		{time.Date(1969, 12, 31, 23, 59, 59, 0, time.UTC), "1970-01-01T00:00:00.000Z", false},
		{time.Date(-40, 1, 1, 0, 0, 0, 0, time.UTC), "1970-01-01T00:00:00.000Z", false},
		{time.Time{}, "1970-01-01T00:00:00.000Z", false},
		{time.Unix(1<<60, 0), "9999-12-30T23:59:59.999Z", false},
		{time.Date(1970, 1, 1, 0, 5, 0, 0, time.UTC), "1970-01-01T00:05:00.000Z", false},
		{time.Date(2000, 12, 31, 23, 59, 59, 999e6, time.UTC), "2000-12-31T23:59:59.999Z", false},
		{time.Date(2001, 1, 1, 0, 0, 0, 0, time.UTC), "2001-01-01T00:00:00.000Z", true},
	} {
		got := Writable(c.at)
		if text := got.UTC().Format("2006-01-02T15:04:05.000Z"); text != c.want || Dated(got) != c.dated || Dated(c.at) != c.dated {
			t.Errorf("%v: %s, %v, want %s, %v", c.at, text, Dated(got), c.want, c.dated)
		}
		for _, zone := range []*time.Location{kiritimati, honolulu} {
			there := Writable(c.at.In(zone))
			if day := progress.DayOf(there).Date(); !there.Equal(got) || there.Location() != zone || len(day.Format(time.DateOnly)) != len(time.DateOnly) {
				t.Errorf("%v in %v: %v, the day is %v", c.at, zone, there, day)
			}
		}
	}
}

// The cost of the check by itself: ten years of practice on two days of three with a clock that was wrong now and then, and
// the worst there can be, a clock that is another one with each of 100,000 answers.
//
//	go test -run '^$' -bench Believe ./progress/clock
func BenchmarkBelieve(b *testing.B) {
	var years, worst []int
	for d := range 3650 {
		switch {
		case d%100 == 50:
			years = append(years, 9999)
		case d%3 > 0:
			years = append(years, d)
		}
	}
	for i := range 100_000 {
		worst = append(worst, []int{i, 4000 + i%7, -4000 + i%11}[i%3])
	}
	for name, days := range map[string][]int{"ten years": years, "worst": worst} {
		runs := runsOf(days)
		b.Run(strings.ReplaceAll(fmt.Sprint(name, " ", len(runs)), " ", "-"), func(b *testing.B) {
			for b.Loop() {
				believe(runs)
			}
		})
	}
}

// evening is a Wednesday at half past six, somewhere west of Greenwich.
var evening = time.Date(2026, 3, 4, 18, 30, 0, 0, time.FixedZone("UTC-5", -5*60*60))

// in returns a time zone.
func in(t testing.TB, name string) *time.Location {
	t.Helper()
	l, err := time.LoadLocation(name)
	if err != nil {
		t.Skip("no time zones here:", err)
	}
	return l
}
