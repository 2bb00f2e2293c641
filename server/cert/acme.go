package cert

import (
	"crypto/tls"
	"errors"
	"net"
	"net/http"

	"golang.org/x/crypto/acme"
	"golang.org/x/crypto/acme/autocert"
)

// ACME gets certificates for public names from a certificate authority by
// itself (RFC 8555) and renews them. cache is a folder of its own: without
// one every restart would ask for new certificates and soon be refused.
// Nothing is asked for any name but these, whatever visitors call us.
//
// plain belongs on port 80, where the authority comes to look (HTTP-01); all
// it does otherwise is send people to https.
func ACME(names Names, cache string) (config *tls.Config, plain http.Handler, err error) {
	m, err := manager(names, cache)
	if err != nil {
		return nil, nil, err
	}
	config = base(m.GetCertificate)
	config.NextProtos = append(config.NextProtos, acme.ALPNProto) // TLS-ALPN-01
	return config, m.HTTPHandler(http.HandlerFunc(toHTTPS)), nil
}

func manager(names Names, cache string) (*autocert.Manager, error) {
	if len(names.Hosts) == 0 {
		return nil, errors.New("-tls acme needs -name: the public name people type, for example -name books.example.org")
	}
	if len(names.Addresses) > 0 {
		return nil, errors.New("-tls acme works for names, not for addresses: take " + names.Addresses[0].String() + " out of -name")
	}
	return &autocert.Manager{
		Prompt:     autocert.AcceptTOS,
		Cache:      autocert.DirCache(cache),
		HostPolicy: autocert.HostWhitelist(names.Hosts...),
	}, nil
}

// toHTTPS sends readers to the same address over https. What was meant to be
// written is refused: it has already crossed the network in clear.
func toHTTPS(w http.ResponseWriter, r *http.Request) {
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		http.Error(w, "Use https.", http.StatusBadRequest)
		return
	}
	host := r.Host
	if h, _, err := net.SplitHostPort(host); err == nil {
		host = h
	}
	http.Redirect(w, r, "https://"+host+r.URL.RequestURI(), http.StatusFound)
}
