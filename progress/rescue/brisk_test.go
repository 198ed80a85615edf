package rescue

import _ "sparetone/brisk"
