// Package gocode reads what stands in the project's own code, for tests that hold all of it to something.
package gocode

import (
	"go/ast"
	"go/token"
	"strconv"
)

// Text is a text as it stands in the code, in one piece or in several that are joined.
func Text(e ast.Expr) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		s, err := strconv.Unquote(e.Value)
		return s, err == nil && e.Kind == token.STRING
	case *ast.BinaryExpr:
		a, first := Text(e.X)
		b, second := Text(e.Y)
		return a + b, first && second
	}
	return "", false
}
