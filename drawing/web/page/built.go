//go:build page

package page

import _ "embed" // the engine, where it was built beforehand

//go:embed engine/engine.wasm.gz
var packed []byte

//go:embed engine/wasm_exec.js
var support []byte

// Built is the engine that this build carries.
func Built() (Engine, bool) { return Engine{packed, support}, true }
