package played

import _ "sparetone/brisk"
