package pupils

import _ "sparetone/brisk"
