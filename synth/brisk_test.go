package synth

import _ "sparetone/brisk"
