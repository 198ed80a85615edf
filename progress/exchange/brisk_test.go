package exchange

import _ "sparetone/brisk"
