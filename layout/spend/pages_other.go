//go:build !linux

package spend

// largePages asks for nothing where there is no such thing to ask for.
func largePages() {}
