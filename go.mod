module oxturn

go 1.26.0

require (
	github.com/BurntSushi/toml v1.6.0 // indirect
	github.com/ajstarks/svgo v0.0.0-20211024235047-1546f124cd8b // indirect
	github.com/google/go-cmp v0.7.0 // indirect
	github.com/peterstace/simplefeatures v0.59.0 // indirect
	github.com/phpdave11/gofpdi v1.0.14-0.20211212211723-1f10f9844311 // indirect
	github.com/pkg/errors v0.8.1 // indirect
	github.com/rogpeppe/go-internal v1.16.0 // indirect
	github.com/signintech/gopdf v0.33.0 // indirect
	golang.org/x/image v0.47.0 // indirect
	golang.org/x/text v0.43.0 // indirect
	pgregory.net/rapid v1.3.0 // indirect
)
