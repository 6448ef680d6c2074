package main

import "errors"

// errLocked is that another process, or another stage, holds a lock.
var errLocked = errors.New("in use by another run")
