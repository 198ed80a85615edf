package shapes

import _ "sparetone/brisk"
