package asking

import _ "sparetone/brisk"
