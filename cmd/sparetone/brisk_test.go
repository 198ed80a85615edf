package main

import _ "sparetone/brisk"
