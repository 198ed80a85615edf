package drills

import "strings"

// ItemID joins a drill, a target and an instrument into the id under which it is remembered.
func ItemID(drill, target, instrument string) string {
	return drill + "/" + target + "/" + instrument
}

// SplitItem takes an item id apart again.
func SplitItem(id string) (drill, target, instrument string) {
	drill, rest, _ := strings.Cut(id, "/")
	target, instrument, _ = strings.Cut(rest, "/")
	return drill, target, instrument
}
