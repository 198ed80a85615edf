package song

import _ "sparetone/brisk"
