package meet

import _ "sparetone/brisk"
