package exported

import _ "sparetone/brisk"
