//go:build race

package main

// slowness is by how much the race detector slows down.
const slowness = 20
