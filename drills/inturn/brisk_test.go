package inturn

import _ "sparetone/brisk"
