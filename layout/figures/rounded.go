package figures

import (
	"math"
	"reflect"
	"strconv"
)

// rounded returns a copy of v with every figure that has the tag round brought
// to so many decimals: what it is good for, so that two machines agree. What is
// no number, or beyond all, is nothing.
func rounded(v reflect.Value, decimals string) reflect.Value {
	out := reflect.New(v.Type()).Elem()
	out.Set(v)
	switch v.Kind() {
	case reflect.Float64:
		out.SetFloat(round(v.Float(), decimals))
	case reflect.Pointer:
		if !v.IsNil() {
			out.Set(reflect.New(v.Type().Elem()))
			out.Elem().Set(rounded(v.Elem(), decimals))
		}
	case reflect.Slice, reflect.Array:
		if v.Kind() == reflect.Slice && !v.IsNil() {
			out.Set(reflect.MakeSlice(v.Type(), v.Len(), v.Len()))
		}
		for i := range v.Len() {
			out.Index(i).Set(rounded(v.Index(i), decimals))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				out.Field(i).Set(rounded(v.Field(i), f.Tag.Get("round")))
			}
		}
	}
	return out
}

// round brings a figure to so many decimals; without any it stays.
func round(v float64, decimals string) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0
	}
	n, err := strconv.Atoi(decimals)
	if err != nil {
		return v
	}
	k := math.Pow10(n)
	return math.Round(v*k)/k + 0
}
