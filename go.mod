module linkrod

go 1.26.0

ignore ./pwa/node_modules

require (
	github.com/goccy/go-yaml v1.19.2
	github.com/golang-jwt/jwt/v5 v5.3.1
	github.com/labstack/echo/v4 v4.16.0
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.3
	go.etcd.io/bbolt v1.5.0
	golang.org/x/crypto v0.59.0
	golang.org/x/text v0.44.0
	golang.org/x/time v0.16.0
	rsc.io/qr v0.2.0
)

require (
	github.com/labstack/gommon v0.5.0 // indirect
	github.com/mattn/go-colorable v0.1.15 // indirect
	github.com/mattn/go-isatty v0.0.22 // indirect
	github.com/valyala/bytebufferpool v1.0.0 // indirect
	github.com/valyala/fasttemplate v1.2.2 // indirect
	golang.org/x/net v0.62.0 // indirect
	golang.org/x/sys v0.50.0 // indirect
)
