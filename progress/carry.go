package progress

// Carry says whether a setting goes from one machine of a student to the others.
type Carry int

const (
	Stays  Carry = iota // it belongs to the machine
	Newest              // it belongs to the student: of several values the one that was chosen last holds
	Once                // it says that something was done, such as shown: once done on one machine it is done on all
)
