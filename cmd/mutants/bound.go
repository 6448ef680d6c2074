package main

import (
	"bytes"
	"go/ast"
	"go/constant"
	"go/token"
)

// largestTolerance is the largest figure that counts as room for rounding.
const largestTolerance = 1e-3

// atTolerance tells whether a comparison of fractions is against a tolerance, or
// a multiple of one: what happens exactly there means nothing.
func (f *finder) atTolerance(e *ast.BinaryExpr) bool {
	found := false
	ast.Inspect(e, func(n ast.Node) bool {
		side, ok := n.(ast.Expr)
		if !ok {
			return true
		}
		v := f.pkg.info.Types[side].Value
		if v != nil && v.Kind() == constant.Float {
			size, _ := constant.Float64Val(v)
			found = found || size != 0 && -largestTolerance <= size && size <= largestTolerance
		}
		return true
	})
	return found
}

// isExtreme tells whether the comparison is of the form `if x < y { y = x }`:
// where both are the same nothing changes.
func (f *finder) isExtreme(e *ast.BinaryExpr) bool {
	body := f.bodies()[e]
	if body == nil || len(body.List) != 1 {
		return false
	}
	a, ok := body.List[0].(*ast.AssignStmt)
	if !ok || a.Tok != token.ASSIGN || len(a.Lhs) != 1 {
		return false
	}
	to, from := f.written(a.Lhs[0]), f.written(a.Rhs[0])
	x, y := f.written(e.X), f.written(e.Y)
	return bytes.Equal(to, x) && bytes.Equal(from, y) || bytes.Equal(to, y) && bytes.Equal(from, x)
}

func (f *finder) written(e ast.Expr) []byte { return f.src.text[f.off(e.Pos()):f.off(e.End())] }

// bodies returns what is done under each condition that is an if's alone.
func (f *finder) bodies() map[*ast.BinaryExpr]*ast.BlockStmt {
	if f.ifs == nil {
		f.ifs = map[*ast.BinaryExpr]*ast.BlockStmt{}
		ast.Inspect(f.src.tree, func(n ast.Node) bool {
			if s, ok := n.(*ast.IfStmt); ok && s.Else == nil {
				if c, ok := s.Cond.(*ast.BinaryExpr); ok {
					f.ifs[c] = s.Body
				}
			}
			return true
		})
	}
	return f.ifs
}
