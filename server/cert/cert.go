// Package cert gets the server a certificate, in one of three ways: files
// somebody gives it, ACME for a name the whole world can look up, or an
// authority of the server's own for a hangar network.
//
// A phone needs one of them. Browsers give an app its offline half (service
// worker, lasting storage) over https and on localhost only, so a box in the
// hangar reached as http://192.168.1.20 would be no use without signal.
package cert

import (
	"crypto/tls"
	"fmt"
	"net"
	"net/netip"
	"strings"
)

// base is what all three ways share. TLS 1.2 is the oldest version a browser
// that runs the app speaks.
func base(get func(*tls.ClientHelloInfo) (*tls.Certificate, error)) *tls.Config {
	return &tls.Config{
		MinVersion:     tls.VersionTLS12,
		NextProtos:     []string{"h2", "http/1.1"},
		GetCertificate: get,
	}
}

// Names are what a server is called: host names and addresses.
type Names struct {
	Hosts     []string // lower case, in the order given
	Addresses []netip.Addr
}

// ParseNames reads a list separated by commas, as typed behind -name.
func ParseNames(list string) (Names, error) {
	var n Names
	for item := range strings.SplitSeq(list, ",") {
		item = strings.ToLower(strings.TrimSpace(item))
		if item == "" {
			continue
		}
		if addr, err := netip.ParseAddr(strings.Trim(item, "[]")); err == nil {
			n.Addresses = append(n.Addresses, addr.Unmap().WithZone(""))
			continue
		}
		if err := checkHost(item); err != nil {
			return Names{}, err
		}
		n.Hosts = append(n.Hosts, item)
	}
	return n, nil
}

// Empty reports whether there is no name at all.
func (n Names) Empty() bool { return len(n.Hosts)+len(n.Addresses) == 0 }

// First is the name to print in links: the first host name, or else the first
// address.
func (n Names) First() string {
	switch {
	case len(n.Hosts) > 0:
		return n.Hosts[0]
	case len(n.Addresses) > 0:
		return n.Addresses[0].String()
	}
	return ""
}

// String lists the names as they would be typed.
func (n Names) String() string {
	all := append([]string(nil), n.Hosts...)
	for _, a := range n.Addresses {
		all = append(all, a.String())
	}
	return strings.Join(all, ", ")
}

// checkHost accepts a host name as RFC 1123 (section 2.1) has it.
func checkHost(name string) error {
	bad := func(why string) error {
		return fmt.Errorf("%q is no host name: %s. Write names like hangar.local, without https:// and without a port", name, why)
	}
	if len(name) > 253 {
		return bad("it is too long")
	}
	for label := range strings.SplitSeq(name, ".") {
		if label == "" || len(label) > 63 {
			return bad("each part between the dots has 1 to 63 characters")
		}
		if strings.HasPrefix(label, "-") || strings.HasSuffix(label, "-") {
			return bad("no part begins or ends with a dash")
		}
		if i := strings.IndexFunc(label, func(r rune) bool {
			return (r < 'a' || r > 'z') && (r < '0' || r > '9') && r != '-'
		}); i >= 0 {
			return bad(fmt.Sprintf("%q is not allowed in one", []rune(label[i:])[0]))
		}
	}
	return nil
}

// Link is the https address of host at the port of listen.
func Link(host, listen string) string { return link("https", "443", host, listen) }

// PlainLink is the http address of host at the port of listen.
func PlainLink(host, listen string) string { return link("http", "80", host, listen) }

func link(scheme, usual, host, listen string) string {
	_, port, err := net.SplitHostPort(listen)
	if err != nil || port == usual {
		if strings.Contains(host, ":") {
			host = "[" + host + "]"
		}
		return scheme + "://" + host
	}
	return scheme + "://" + net.JoinHostPort(host, port)
}
