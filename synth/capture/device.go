package capture

import "context"

// theMicrophone is what the machine's device is called in a sentence.
const theMicrophone = "the microphone"

// application is what the program is called in a mixer of the system's.
const application = "sparetone"

// deviceRate is how many samples a second a device is asked for. It may give another number.
const deviceRate = 48000

// fragment is how many samples a device is asked for at a time: 10 ms.
const fragment = deviceRate / 100

// Device returns the opener of the machine's microphone: the one that the system has chosen.
func Device() Opener { return device{} }

type device struct{}

func (device) Name() string { return theMicrophone }

func (device) Open(ctx context.Context) (Source, error) { return openDevice(ctx) }
