module linkrod

go 1.26.0

ignore ./pwa/node_modules

require (
	github.com/golang-jwt/jwt/v5 v5.3.1
	golang.org/x/crypto v0.59.0
	golang.org/x/text v0.44.0
	golang.org/x/time v0.16.0
)

require golang.org/x/sys v0.50.0 // indirect
