// Package viewer is how a page shows a drawing in a browser: one sheet at a time, moved and
// zoomed by finger, mouse or keys, with what lies under the pointer. The page that has the
// whole tool and the one that follows a file take it alike.
package viewer

import _ "embed"

// Script is the viewer's, without a build step: it comes before the script of a page.
//
//go:embed viewer.js
var Script string
