package hear_test

import _ "sparetone/brisk"
