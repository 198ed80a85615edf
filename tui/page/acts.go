package page

import (
	"maps"
	"slices"
)

// acts are the known acts by id: keys, and what they are called on the screen and in lines of text. A place says what they
// do there.
var acts = map[string]Act{
	// From today's practice.
	"begin":    {Keys: "enter", Does: "begin", Words: "|", Says: " begins"},
	"ear":      {Keys: "e", Does: "by ear only", HelpOnly: true, Words: "ear", Says: ", for practice by ear only"},
	"eye":      {Keys: "i", Does: "by eye only", HelpOnly: true, Words: "eye", Says: ", by eye only"},
	"weak":     {Keys: "w", Does: "weak spots", HelpOnly: true, Words: "weak", Says: ", for what you mistake for what"},
	"drills":   {Keys: "d", Does: "one drill", HelpOnly: true, Words: "drills", Says: ", to practise one of the drills"},
	"known":    {Keys: "k", Does: "what you know", HelpOnly: true, Words: "known", Says: ", for what you can tell apart, and which chords you know"},
	"course":   {Keys: "c", Does: "the course", HelpOnly: true, Words: "course", Says: ", to practise one of its steps"},
	"try":      {Keys: "v", Does: "try things", HelpOnly: true, Words: "try", Says: ", for what any chord or shape is"},
	"hand in":  {Keys: "t", Does: "for my teacher", HelpOnly: true, Words: "teacher", Says: ", to write a file for your teacher"},
	"tune":     {Keys: "u", Does: "tune", HelpOnly: true, Words: "tune", Says: ", to tune the instrument; the microphone listens until you go back"},
	"settings": {Keys: "s", Does: "settings", HelpOnly: true, Words: "settings", Says: ", for what is set, and to change it"},

	// On and away.
	"go on": {Keys: "enter", Does: "go on", Words: "|", Says: " goes on"},
	"back":  {Keys: "q esc", Does: "back", Words: "|back|stop", Says: " goes back"},
	"stop":  {Keys: "q", Does: "leave", Words: "stop", Says: ", to end this practice"},
	"stop?": {Keys: "esc", Does: "leave; it is asked first", HelpOnly: true, ScreenOnly: true},
	"later": {Keys: "q", Does: "leave these questions for another time", HelpOnly: true, Words: "stop", Says: ", to leave these questions for another time"},
	"leave": {Keys: "ctrl+c", Does: "leave at once", Words: "leave|quit|exit", Says: ", to end the program"},

	// Everywhere.
	"louder":       {Keys: "+ =", Does: "louder", Words: "louder"},
	"softer":       {Keys: "-", Does: "softer", Words: "softer"},
	"help":         {Keys: "?", Does: "help", Words: "help|?"},
	"listen":       {Keys: "ctrl+l", Does: "listen to the microphone", Words: "listen", Says: ", to have the microphone listen"},
	"no listening": {Keys: "ctrl+l", Does: "stop listening", Words: "stop listening|listen", Says: ", to switch the microphone off"},
	"time":         {Keys: "l", Does: "how much time is left", HelpOnly: true, Words: "time", Says: ", for how much time is left"},
	"save":         {Keys: "ctrl+s", Does: "save", Words: "save ", Says: ", to keep in a new file what is not kept"},

	// What sounds.
	"again":   {Keys: "space", Does: "again", Words: "again|repeat", Says: ", to hear it again"},
	"open":    {Keys: "o", Does: "open up", Words: "open", Says: ", to hear it string by string"},
	"root":    {Keys: "r", Does: "root first", Words: "open root", Says: ", to hear the root first"},
	"slower":  {Keys: "s", Does: "slower", Words: "slower"},
	"both":    {Keys: "b", Does: "hear both", Words: "both", Says: ", to hear the two in turn"},
	"hear":    {Keys: "h", Does: "hear a shape", HelpOnly: true, Words: "hear ", Says: " and a fret for each string, to hear a shape"},
	"picked":  {Keys: "p", Does: "picked", Words: "picked"},
	"apart":   {Keys: "a", Does: "apart", Words: "apart"},
	"unheard": {Keys: "n", Does: "I hear nothing", HelpOnly: true, Words: "no|no sound", Says: ", if you hear nothing"},

	// Answers.
	"answer":    {Keys: "enter", Does: "answer", ScreenOnly: true},
	"pass":      {Keys: "d", Does: "don't know", Words: "I don't know", Says: ", if you do not"},
	"why":       {Keys: "y", Does: "why now", Words: "why", Says: ", for why it is asked now"},
	"meet":      {Keys: "m", Does: "what it is like", HelpOnly: true, Words: "meet", Says: ", for what it is and what it is like"},
	"take back": {Keys: "u", Does: "take the played answer back", HelpOnly: true, Words: "take back", Says: ", to take the played answer back: nothing is kept of it"},
	"fingers":   {Keys: "f", Does: "fingers", HelpOnly: true, Words: "fingers", Says: ", for which finger goes where"},
	"made of":   {Keys: "y", Does: "what it is made of", Words: "why", Says: ", for what it is made of"},
	"flip":      {Keys: "tab", Does: "the other", Words: "other", Says: ", to hear the other one, and back"},
	"skip":      {Keys: "0", Does: "ask at once", HelpOnly: true, Words: "0|skip", Says: ", to be asked at once"},
	"what":      {Keys: "w", Does: "words", Words: "what ", Says: " and a word, for what it means"},
	"bench":     {Keys: "v", Does: "try it", Words: "try", Says: ", to try things from there"},

	// On the bench.
	"take":  {Keys: "enter", Does: "take it", ScreenOnly: true},
	"undo":  {Keys: "backspace", KeyName: "⌫", Does: "take back", Words: "back", Says: ", to undo it"},
	"name":  {Keys: "n", Does: "other name", Words: "name", Says: ", for another name of this one"},
	"shape": {Keys: "s", Does: "other shape", Words: "shape", Says: ", for another shape"},

	// At the end.
	"chord":   {Keys: "c", Does: "today's chord", Words: "chord", Says: ", to hear today's chord"},
	"answers": {Keys: "a", Does: "all answers", Words: "answers", Says: ", to list all answers"},

	// Lists and charts.
	"practise": {Keys: "p", Does: "practise", Words: "practise|practice", Says: ", to practise all of this"},
	"find out": {Keys: "c", Does: "find out where you begin", HelpOnly: true, Words: "find out", Says: ", to find out in two minutes where in the course you begin"},
	"choose":   {Keys: "enter", Does: "choose", ScreenOnly: true},
	"all":      {Keys: "w", Does: "practise all weak spots", Words: "all", Says: ", to practise all that is weak"},

	// Songs.
	"songs":       {Keys: "o", Does: "songs", HelpOnly: true, Words: "songs", Says: ", for songs of your own"},
	"new song":    {Keys: "n", Does: "write one", Words: "new", Says: ", to write a song"},
	"open song":   {Keys: "o", Does: "open a file", Words: "open ", Says: " and a file, to open a chart"},
	"take away":   {Keys: "x", Does: "take away", HelpOnly: true, Words: "remove ", Says: " and a number, to take a song away"},
	"done":        {Keys: "enter", Does: "done", Words: "done", Says: ", when the song is written"},
	"line":        {Keys: "r", Does: "write a line anew", Words: "line ", Says: " and its number, to write a line anew"},
	"drop":        {Keys: "x", Does: "take a line out", Words: "drop ", Says: " and its number, to take a line out"},
	"play song":   {Keys: "space", Does: "play", Words: "play|pause", Says: ", to play the song, and to stop it"},
	"along":       {Keys: "g", Does: "play it yourself; it waits for each chord", HelpOnly: true, Words: "along", Says: ", to play it through yourself: it waits for each chord"},
	"in time":     {Keys: "t", Does: "play it yourself in time", HelpOnly: true, Words: "in time", Says: ", to play it through yourself in time"},
	"switch":      {Keys: "tab", Does: "plain or coloured", Words: "switch", Says: ", for plain or coloured, from the next bar line"},
	"turns":       {Keys: "b", Does: "a bar plain, a bar coloured", HelpOnly: true, Words: "turns", Says: ", for a bar plain and a bar coloured"},
	"colour":      {Keys: "c", Does: "colour", Words: "colour|color", Says: ", for the next colour of this chord"},
	"plain shape": {Keys: "n", Does: "shape", Words: "shape", Says: ", for the next plain shape of this chord"},
	"free":        {Keys: "backspace", KeyName: "⌫", Does: "the shapes that were found", HelpOnly: true, Words: "found", Says: ", to leave the shapes of this chord to be found again"},
	"richer":      {Keys: "]", Does: "richer", HelpOnly: true, Words: "richer", Says: ", for a richer path"},
	"plainer":     {Keys: "[", Does: "plainer", HelpOnly: true, Words: "plainer", Says: ", for a plainer path"},
	"faster":      {Keys: "> .", Does: "faster", HelpOnly: true, Words: "faster", Says: " and slower, from the next bar line"},
	"slower song": {Keys: "< ,", Does: "slower, from the next bar line", HelpOnly: true, Words: "slower"},
	"hear chord":  {Keys: "h", Does: "hear this chord", HelpOnly: true, Words: "hear", Says: ", to hear this chord, plain and coloured"},
	"click":       {Keys: "k", Does: "click", HelpOnly: true, Words: "click", Says: ", for a click on each beat, or none"},
	"count in":    {Keys: "i", Does: "count in", HelpOnly: true, Words: "count", Says: ", for a bar of clicks before it, or none"},
	"onward":      {Keys: "right", KeyName: "→", Does: "the next chord", HelpOnly: true, Words: "next", Says: ", for the next chord"},
	"backward":    {Keys: "left", KeyName: "←", Does: "the chord before", HelpOnly: true, Words: "before", Says: ", for the one before"},
	"rows":        {Keys: "up down", KeyName: "↑↓", Does: "a row of bars up or down", HelpOnly: true, ScreenOnly: true},
	"all bars":    {Keys: "a", Does: "all bars, from the first", HelpOnly: true, Words: "bars", Says: ", to have all bars said again"},
	"rewrite":     {Keys: "e", Does: "change the chart", HelpOnly: true, Words: "chart", Says: ", to change what is written"},
	"sheet":       {Keys: "w", Does: "write a sheet", HelpOnly: true, Words: "sheet ", Says: " and a file, to write a sheet for printing"},

	// Lessons.
	"lessons":     {Keys: "l", Does: "lessons", HelpOnly: true, Words: "lessons", Says: ", for the lessons of your teacher"},
	"take lesson": {Keys: "o", Does: "take one from a file", Words: "take ", Says: " and a file, to take a lesson"},
	"give up":     {Keys: "x", Does: "give it up", HelpOnly: true, Words: "give up", Says: ", to give this lesson up"},
	"take up":     {Keys: "u", Does: "take it up again", Words: "take up", Says: ", to take this lesson up again"},

	// Ways of the screen to move over a block, or to fill it in.
	"mark":   {Keys: "up down", KeyName: "↑↓", Does: "choose", ScreenOnly: true},
	"number": {Keys: "1 2 3 4 5 6 7 8 9", Does: "answer", ScreenOnly: true},
	"turn":   {Keys: "right left", KeyName: "←→", Does: "change", ScreenOnly: true},
	"cell":   {Keys: "up down left right", KeyName: "←→↑↓", Does: "look", ScreenOnly: true},
	"next":   {Keys: "tab", Does: "next", ScreenOnly: true},
	"type":   {Keys: "t", Does: "type it", ScreenOnly: true},
	"move":   {Keys: "left right up down", KeyName: "←→↑↓", Does: "move", ScreenOnly: true},
	"fret":   {Keys: "0 1 2 3 4 5 6 7 8 9", KeyName: "0–9", Does: "fret; goes on to the next string", ScreenOnly: true},
	"mute":   {Keys: "x", Does: "mute; goes on to the next string", ScreenOnly: true},
	"degree": {Keys: "r R 1 2 3 4 5 6 7 8 9", KeyName: "R 2–9 b #", Does: "degree; goes on to the next string", ScreenOnly: true},
	"sign":   {Keys: "b #", Does: "flat, and # sharp: before the number", HelpOnly: true, ScreenOnly: true},
	"clear":  {Keys: "backspace", KeyName: "⌫", Does: "take away", ScreenOnly: true},
}

// OnScreen is an act of the screen that a block knows how to do.
func OnScreen(id string) Act { return Called(id, nil) }

// Known lists the ids of all known acts.
func Known() []string { return slices.Sorted(maps.Keys(acts)) }

// Called returns a known act with what it does here. It panics if there is none of this id: keys, words and help would be missing.
func Called(id string, do func(more string) Next) Act {
	a, known := acts[id]
	if !known {
		panic("page: no act is called " + id)
	}
	a.ID, a.Do = id, do
	return a
}

// Leads is a known act that only leads to a place.
func Leads(id string, to func() Place) Act {
	return Called(id, func(string) Next { return Next{To: to(), Silence: true} })
}

// Only drops the acts that do not work here.
func Only(all ...Act) []Act { return slices.DeleteFunc(all, func(a Act) bool { return a.ID == "" }) }

// BackTo is the act that leads back to a place, as it was left.
func BackTo(at Place) Act { return Leads("back", func() Place { return at }) }
