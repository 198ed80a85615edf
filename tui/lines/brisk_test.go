package lines

import _ "sparetone/brisk"
