// Package viewer is how a page shows a drawing in a browser: one sheet at a time, moved and
// zoomed by finger, mouse or keys, with what lies under the pointer. The page that has the
// whole tool and the one that follows a file take it alike.
package viewer

import _ "embed"

//go:embed viewer.js
var own string

// bundle is what takes the gestures, as drawing/web/bundle makes it.
//
//go:embed zoom/bundle.js
var bundle string

// Licences are the terms of the works that the bundle is made of.
//
//go:embed zoom/licences.txt
var Licences []byte

// Script is the viewer's: it comes before the script of a page.
var Script = bundle + own
