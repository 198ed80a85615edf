package harmony

import _ "sparetone/brisk"
