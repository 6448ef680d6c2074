package spend

import (
	"runtime"
	"syscall"
)

// inLargePages bytes of the heap are asked for in large pages: what the plan of a room touches. A page of
// 4 kB costs a call to the system when it is first touched, some microseconds on a virtual machine, and a plan
// touches nine thousand of them: a third of its time.
const inLargePages = 40 << 20

// largePages asks for the heap's first memory in large pages. The heap gets it by a block that is never touched,
// and keeps it when the block is given back at once. A system without large pages says so, which changes nothing.
func largePages() {
	block := make([]byte, inLargePages)
	_ = syscall.Madvise(block, syscall.MADV_HUGEPAGE)
	block = nil
	runtime.GC()
}
