package course

import _ "sparetone/brisk"
