package class_test

import _ "sparetone/brisk"
