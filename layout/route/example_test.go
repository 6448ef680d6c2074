package route_test

import (
	"errors"
	"fmt"

	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// floor is a room of 3 by 2.4 m with 75 mm kept free along its walls, pegs 30 mm apart,
// and a box on the wall at the left.
func floor(length float64) route.Problem {
	walls := plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2400))
	zone := plane.Rectangle(plane.Pt(75, 75), plane.Pt(2925, 2325))
	p := route.Problem{
		Floor: plane.FromRing(walls), Zones: []plane.Region{plane.FromRing(zone)}, Entry: plane.Pt(0, 1200),
		Pitch: 30, Closest: 2, Widest: 5, Bend: 15,
		Cables: []route.Cable{{ID: "H1", Length: length}},
	}
	for i := range walls {
		p.Walls = append(p.Walls, walls.Edge(i))
	}
	return p
}

func ExampleSolve() {
	p := floor(70_000)
	routes, err := route.Solve(p)
	if err != nil {
		fmt.Println(err)
		return
	}
	rt := routes[0]
	fmt.Printf("%.1f mm of cable, %.0f mm from run to run\n", route.Length(rt.Path, p.Bend), rt.Spacing)
	fmt.Printf("%.0f %% of the floor in its reach\n", 100*rt.Score.Covered)
	// Output:
	// 70000.0 mm of cable, 99 mm from run to run
	// 100 % of the floor in its reach
}

func ExampleRefusal() {
	_, err := route.Solve(floor(400_000))
	var no *route.Refusal
	fmt.Println(errors.As(err, &no) && no.Longest < 400_000 && no.Shortest < no.Longest)
	// Output: true
}

func ExampleEaseOf() {
	p := floor(70_000)
	routes, err := route.Solve(p)
	if err != nil {
		fmt.Println(err)
		return
	}
	e := route.EaseOf(routes[0].Path, p.Pitch, p.Widest)
	fmt.Printf("%.0f %% in runs of more than 10 pegs, along %d axis\n", 100*e.Long, e.Directions)
	// Output: 96 % in runs of more than 10 pegs, along 1 axis
}

// Steps bound the work: a purse may be shared by several problems.
func ExampleSteps() {
	p := floor(70_000)
	p.Steps = route.StepsFor(p.Zones, p.Pitch, len(p.Cables), 1)
	_, err := route.Solve(p)
	fmt.Println(err, p.Steps.GivenUp())
	// Output: <nil> []
}
