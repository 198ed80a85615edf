package progress

import "time"

// dayEnds is the hour, by the student's own clock, at which one practice day ends and the next begins.
const dayEnds = 4

// Day is a practice day, counted from 1 January 1970. What is remembered fades by practice days, so
// neither the hour of practice nor a clock put back for winter makes any difference.
type Day int

// DayOf returns the practice day of a moment, by the date and hour of the moment's own time zone.
func DayOf(t time.Time) Day {
	y, m, d := t.Date()
	if t.Hour() < dayEnds {
		d--
	}
	return Day(time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Unix() / (24 * 60 * 60))
}

// Date returns the calendar date of the day, at midnight UTC.
func (d Day) Date() time.Time { return time.Unix(int64(d)*24*60*60, 0).UTC() }

// Begins returns the moment at which the day begins in a time zone.
func (d Day) Begins(in *time.Location) time.Time {
	y, m, day := d.Date().Date()
	return time.Date(y, m, day, dayEnds, 0, 0, 0, in)
}

// Since returns how many practice days lie between an earlier day and this one. A clock that was set
// back, or a journey west, counts as the same day and never as less.
func (d Day) Since(earlier Day) int { return max(0, int(d-earlier)) }

// Week returns the week a day lies in, counted from Thursday 1 January 1970.
func (d Day) Week() int {
	if d < 0 {
		return (int(d) - 6) / 7
	}
	return int(d) / 7
}
