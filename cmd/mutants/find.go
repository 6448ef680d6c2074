package main

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
)

// mutant is one change of one operator.
type mutant struct {
	id       int
	file     string // from the folder the program runs in
	line     int
	fun      string
	text     string // the line, the change marked in it
	from, to string
}

// key names a mutant so that it stays the same when other lines change.
func (m mutant) key() string { return m.file + " " + m.fun + ": " + m.text }

// String says where the slip is and what it changes.
func (m mutant) String() string { return fmt.Sprintf("%s:%d %s: %s", m.file, m.line, m.fun, m.text) }

// draw returns n of the mutants in their order, all when n is 0.
func draw(all []mutant, n int, seed uint64) []mutant {
	if n <= 0 || n >= len(all) {
		return all
	}
	picked := rand.New(rand.NewPCG(seed, 0)).Perm(len(all))[:n]
	slices.Sort(picked)
	var some []mutant
	for _, i := range picked {
		some = append(some, all[i])
	}
	return some
}

// finder goes through one file and notes mutants and the edits that switch them.
type finder struct {
	pkg     *pkg
	src     *source
	file    string
	fun     string
	mutants *[]mutant
	edits   edits
	ifs     map[*ast.BinaryExpr]*ast.BlockStmt
}

// findAll returns a package's mutants and its files rewritten by path.
func findAll(p *pkg, only string) ([]mutant, map[string][]byte) {
	var all []mutant
	files := map[string][]byte{}
	for _, s := range p.files {
		file, err := filepath.Rel(p.root, s.path)
		if err != nil {
			file = s.path
		}
		file = filepath.ToSlash(file)
		if !strings.Contains(file, only) {
			continue
		}
		f := &finder{pkg: p, src: s, file: file, mutants: &all}
		for _, d := range s.tree.Decls {
			f.decl(d)
		}
		files[s.path] = f.edits.apply(s.text)
	}
	return all, files
}

func (f *finder) decl(d ast.Decl) {
	switch d := d.(type) {
	case *ast.FuncDecl:
		f.fun = d.Name.Name
		if d.Body != nil {
			f.walk(d.Body)
		}
	case *ast.GenDecl:
		if d.Tok == token.VAR {
			f.fun = "var"
			f.walk(d)
		}
	}
}

// walk finds the mutants below n. Constants keep their value: the compiler must know it.
func (f *finder) walk(n ast.Node) {
	ast.Inspect(n, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.GenDecl:
			return n.Tok == token.VAR
		case *ast.ArrayType:
			return false
		case *ast.KeyValueExpr:
			f.walk(n.Value)
			return false
		case *ast.CallExpr:
			return f.call(n)
		case *ast.ReturnStmt:
			return f.result(n)
		case *ast.IncDecStmt:
			f.step(n)
			return false
		case *ast.AssignStmt:
			return f.assign(n)
		case *ast.BasicLit:
			f.literal(n)
		case ast.Expr:
			if f.pkg.info.Types[n].Value != nil {
				return false
			}
			f.operator(n)
		}
		return true
	})
}

// result leaves out what stands beside an error or beside false: nobody may read it.
func (f *finder) result(r *ast.ReturnStmt) bool {
	last := len(r.Results) - 1
	if last < 1 {
		return true
	}
	if t := f.pkg.info.Types[r.Results[last]]; !isFalse(t) && !isFailure(t.Type) {
		return true
	}
	f.walk(r.Results[last])
	return false
}

func isFalse(t types.TypeAndValue) bool {
	return t.Value != nil && t.Value.Kind() == constant.Bool && !constant.BoolVal(t.Value)
}

// isFailure tells whether a result is an error, or a pointer to what is named one.
func isFailure(t types.Type) bool {
	if p, ok := t.(*types.Pointer); ok {
		if n, ok := p.Elem().(*types.Named); ok && strings.HasSuffix(n.Obj().Name(), "Error") {
			return true
		}
	}
	return t != nil && types.Implements(t, errorType)
}

var errorType = types.Universe.Lookup("error").Type().Underlying().(*types.Interface)

// call leaves out what a program's answers do not hang on: capacities, and the
// sign of infinity, which is plus for both 0 and 1, and asked for as either where
// what is negative has gone before.
func (f *finder) call(c *ast.CallExpr) bool {
	if f.pkg.info.Types[c].Value != nil || string(f.written(c.Fun)) == "math.Inf" {
		return false
	}
	if string(f.written(c.Fun)) == "math.IsInf" {
		f.walk(c.Args[0])
		return false
	}
	if name, ok := c.Fun.(*ast.Ident); ok && name.Name == "make" && len(c.Args) == 3 {
		f.walk(c.Args[1])
		return false
	}
	return true
}

func (f *finder) operator(e ast.Expr) {
	switch e := e.(type) {
	case *ast.BinaryExpr:
		f.binary(e)
	case *ast.UnaryExpr:
		if e.Op == token.SUB && f.number(e.X) {
			id := f.add(e.OpPos, "-", "")
			f.edits.replace(f.off(e.OpPos), 1, fmt.Sprintf("mutantMinus(%d, ", id))
			f.edits.after(f.off(e.End()), ")")
		}
	}
}

var arithmetic = map[token.Token]struct{ name, other string }{
	token.ADD: {"mutantAdd", "-"}, token.SUB: {"mutantSub", "+"},
	token.MUL: {"mutantMul", "/"}, token.QUO: {"mutantDiv", "*"},
}

var comparisons = map[token.Token]struct{ name, bound, negation string }{
	token.LSS: {"mutantLess", "<=", ">="}, token.LEQ: {"mutantAtMost", "<", ">"},
	token.GTR: {"mutantMore", ">=", "<="}, token.GEQ: {"mutantAtLeast", ">", "<"},
}

func (f *finder) binary(e *ast.BinaryExpr) {
	op := e.Op.String()
	switch a, isSum := arithmetic[e.Op]; {
	case isSum && f.number(e.X) && f.number(e.Y):
		f.callOf(e, a.name, f.add(e.OpPos, op, a.other))
	case (e.Op == token.LAND || e.Op == token.LOR) && f.plainBool(e):
		f.logical(e, f.add(e.OpPos, op, map[string]string{"&&": "||", "||": "&&"}[op]))
	case (e.Op == token.EQL || e.Op == token.NEQ) && f.plainBool(e):
		f.flip(e, f.add(e.OpPos, op, map[string]string{"==": "!=", "!=": "=="}[op]))
	default:
		if o, ok := comparisons[e.Op]; ok && f.ordered(e.X) && f.ordered(e.Y) {
			f.comparison(e, o.name, op, o.bound, o.negation)
		}
	}
}

func (f *finder) comparison(e *ast.BinaryExpr, name, op, bound, negation string) {
	if f.atTolerance(e) || f.isExtreme(e) {
		f.flip(e, f.add(e.OpPos, op, negation))
		return
	}
	id := f.add(e.OpPos, op, bound)
	f.add(e.OpPos, op, negation)
	f.callOf(e, name, id)
}

// flip lets the mutant turn the answer of a comparison round.
func (f *finder) flip(e *ast.BinaryExpr, id int) {
	f.edits.before(f.off(e.Pos()), fmt.Sprintf("(mutantOn(%d) != (", id))
	f.edits.after(f.off(e.End()), "))")
}

// callOf makes `x op y` the call of a helper that knows the mutant.
func (f *finder) callOf(e *ast.BinaryExpr, name string, id int) {
	f.edits.before(f.off(e.Pos()), fmt.Sprintf("%s(%d, ", name, id))
	f.edits.replace(f.off(e.OpPos), len(e.Op.String()), ",")
	f.edits.after(f.off(e.End()), ")")
}

// logical turns an and into an or, or back, by negating both sides and the whole,
// so that the right side is still only asked where Go would ask.
func (f *finder) logical(e *ast.BinaryExpr, id int) {
	on := fmt.Sprintf(") != mutantOn(%d)", id)
	f.edits.before(f.off(e.Pos()), "(((")
	f.edits.replace(f.off(e.OpPos), 2, on+" "+e.Op.String()+" (")
	f.edits.after(f.off(e.End()), on+")"+on[1:]+")")
}

func (f *finder) step(s *ast.IncDecStmt) {
	f.walk(s.X)
	to := map[token.Token]string{token.INC: "--", token.DEC: "++"}[s.Tok]
	name, ok := f.typeName(f.pkg.info.Types[s.X].Type)
	if !ok {
		return
	}
	id := f.add(s.TokPos, s.Tok.String(), to)
	f.edits.replace(f.off(s.TokPos), 2, fmt.Sprintf(" %s= %s(mutantStep(%d))", s.Tok.String()[:1], name, id))
}

var assigned = map[token.Token]token.Token{
	token.ADD_ASSIGN: token.ADD, token.SUB_ASSIGN: token.SUB, token.MUL_ASSIGN: token.MUL, token.QUO_ASSIGN: token.QUO,
}

// assign handles `x op= y`; what stands in x itself is left as it is.
func (f *finder) assign(s *ast.AssignStmt) bool {
	op, ok := assigned[s.Tok]
	if !ok {
		return true
	}
	x, y := s.Lhs[0], s.Rhs[0]
	if f.number(x) {
		a := arithmetic[op]
		id := f.add(s.TokPos, s.Tok.String(), a.other+"=")
		left := f.src.text[f.off(x.Pos()):f.off(x.End())]
		f.edits.replace(f.off(s.TokPos), 2, fmt.Sprintf("= %s(%d, %s,", a.name, id, left))
		f.edits.after(f.off(y.End()), ")")
	}
	f.walk(y)
	return false
}

// literal changes a plain 0 to 1 and a plain 1 to 0.
func (f *finder) literal(l *ast.BasicLit) {
	if l.Value != "0" && l.Value != "1" {
		return
	}
	tv := f.pkg.info.Types[l]
	name, ok := f.typeName(tv.Type)
	if !ok || tv.Value == nil || tv.Value.Kind() == constant.String {
		return
	}
	to := map[string]string{"0": "1", "1": "0"}[l.Value]
	id := f.add(l.Pos(), l.Value, to)
	f.edits.replace(f.off(l.Pos()), 1, fmt.Sprintf("%s(mutantLiteral(%d, %s))", name, id, l.Value))
}

func (f *finder) off(p token.Pos) int { return f.pkg.fset.Position(p).Offset }

// add notes a mutant and returns its number.
func (f *finder) add(at token.Pos, from, to string) int {
	pos := f.pkg.fset.Position(at)
	start := strings.LastIndexByte(string(f.src.text[:pos.Offset]), '\n') + 1
	end := len(f.src.text)
	if n := strings.IndexByte(string(f.src.text[pos.Offset:]), '\n'); n >= 0 {
		end = pos.Offset + n
	}
	left, right := string(f.src.text[start:pos.Offset]), string(f.src.text[pos.Offset+len(from):end])
	m := mutant{id: len(*f.mutants), file: f.file, line: pos.Line, fun: f.fun, from: from, to: to,
		text: strings.TrimSpace(left + "[" + from + " => " + to + "]" + right)}
	*f.mutants = append(*f.mutants, m)
	return m.id
}

// typeName returns how a number type is written in this file.
func (f *finder) typeName(t types.Type) (string, bool) {
	basic, ok := t.Underlying().(*types.Basic)
	if !ok || basic.Info()&types.IsNumeric == 0 || basic.Info()&types.IsUntyped != 0 {
		return "", false
	}
	switch t := t.(type) {
	case *types.Basic:
		return t.Name(), true
	case *types.Named:
		return t.Obj().Name(), t.Obj().Pkg() == f.pkg.types && t.Obj().Parent() == f.pkg.types.Scope()
	}
	return "", false
}

// number tells whether e is a real number whose type the helpers can take.
func (f *finder) number(e ast.Expr) bool { return f.is(e, types.IsInteger|types.IsFloat) }

func (f *finder) ordered(e ast.Expr) bool {
	return f.is(e, types.IsInteger|types.IsFloat|types.IsString)
}

func (f *finder) is(e ast.Expr, kind types.BasicInfo) bool {
	tv := f.pkg.info.Types[e]
	if tv.Type == nil {
		return false
	}
	if _, generic := tv.Type.(*types.TypeParam); generic {
		return false
	}
	basic, ok := tv.Type.Underlying().(*types.Basic)
	untyped := ok && basic.Info()&types.IsUntyped != 0 && tv.Value == nil
	return ok && !untyped && basic.Info()&kind != 0
}

func (f *finder) plainBool(e ast.Expr) bool {
	_, ok := f.pkg.info.Types[e].Type.(*types.Basic)
	return ok
}
