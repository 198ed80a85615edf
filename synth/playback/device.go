package playback

// device is a sound device that has opened: it takes what the mixer makes, as fast as it sounds.
type device interface {
	wake()      // something is to sound; called again for each sound
	rest()      // nothing is: it takes nothing and costs no processor time until wake is called
	err() error // why it takes nothing any more, in plain words; nil while it does
	close()     // lets it go
}

// application is what the program is called in a mixer of the system's.
const application = "sparetone"
