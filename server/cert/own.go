package cert

import (
	"bytes"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"errors"
	"fmt"
	"io/fs"
	"math/big"
	"net"
	"net/netip"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"time"
)

const (
	authorityFile = "authority.pem" // certificate and key, 0600

	authorityLife = 10 * 365 * 24 * time.Hour // phones trust it until then
	leafLife      = 90 * 24 * time.Hour       // under the 825 days Apple allows (from memory)
	leafRenew     = 60 * 24 * time.Hour       // age at which the next one is made
	backdate      = 24 * time.Hour            // for phones whose clock is behind
)

// Authority is a certificate authority for one hangar: it vouches for this
// server's names and for nothing else. People trust it once on each phone
// ([Authority.Install]), and from then on the phone reaches the server over
// https with no help from outside.
//
// Its key would let a thief pretend to be what it may vouch for. So the
// certificate itself limits that (name constraints, RFC 5280 section
// 4.2.1.10): the names it was made for, and addresses of private networks,
// which mean nothing elsewhere. A phone that trusts it can't be fooled about
// its bank.
type Authority struct {
	given Names // as configured
	names Names // and this machine's own
	cert  *x509.Certificate
	key   *ecdsa.PrivateKey

	mu   sync.Mutex
	leaf *tls.Certificate
}

// Own opens the authority kept in dir, or makes it; made says which. It fails
// when the one on file may not vouch for names: phones trust that one, so it
// is not replaced behind their back.
func Own(dir string, names Names) (a *Authority, made bool, err error) {
	if names.Empty() {
		return nil, false, errors.New("-tls own needs -name: what phones will type, names or addresses, for example -name hangar.local,192.168.1.20")
	}
	path := filepath.Join(dir, authorityFile)
	a = &Authority{given: names, names: names.withLocalhost()}
	text, err := os.ReadFile(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		made = true
		err = a.found(path)
	case err == nil:
		err = a.open(path, text)
	}
	if err != nil {
		return nil, false, err
	}
	if err := a.mayVouch(time.Now()); err != nil {
		return nil, false, fmt.Errorf("the authority in %s can't vouch for %s: %w.\n"+
			"Start with the names it was made for, or move the file away to have a new one made; every phone must then trust the new one", path, names, err)
	}
	return a, made, nil
}

// TLS is the server's side.
func (a *Authority) TLS() *tls.Config { return base(a.get) }

// Fingerprint is the SHA-256 of the authority's certificate, as phones and
// computers show it.
func (a *Authority) Fingerprint() string {
	sum := sha256.Sum256(a.cert.Raw)
	return fmt.Sprintf("% X", sum)
}

// Until is when phones stop trusting the authority.
func (a *Authority) Until() time.Time { return a.cert.NotAfter }

// withLocalhost adds the server's own machine, where the first visit is made.
func (n Names) withLocalhost() Names {
	n.Hosts = append(n.Hosts[:len(n.Hosts):len(n.Hosts)], "localhost")
	n.Addresses = append(n.Addresses[:len(n.Addresses):len(n.Addresses)], netip.MustParseAddr("127.0.0.1"), netip.MustParseAddr("::1"))
	return n
}

// privateNetworks are addresses that mean a different machine in every house:
// RFC 1918, RFC 4193, link-local and loopback. All of them may be vouched for,
// so that a box whose router gives it another address needs no new authority.
var privateNetworks = []string{
	"10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "127.0.0.0/8",
	"fc00::/7", "fe80::/10", "::1/128",
}

// found makes a new authority and keeps it.
func (a *Authority) found(path string) error {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return err
	}
	var ranges []*net.IPNet
	for _, text := range privateNetworks {
		_, network, err := net.ParseCIDR(text)
		if err != nil {
			return err
		}
		ranges = append(ranges, network)
	}
	for _, addr := range a.names.Addresses {
		ip := net.IP(addr.AsSlice())
		if !slices.ContainsFunc(ranges, func(n *net.IPNet) bool { return n.Contains(ip) }) {
			ranges = append(ranges, &net.IPNet{IP: ip, Mask: net.CIDRMask(addr.BitLen(), addr.BitLen())})
		}
	}
	now := time.Now()
	template := &x509.Certificate{
		SerialNumber:                serial(),
		Subject:                     pkix.Name{Organization: []string{"Linkrod"}, CommonName: "Linkrod at " + a.names.First()},
		NotBefore:                   now.Add(-backdate),
		NotAfter:                    now.Add(authorityLife),
		IsCA:                        true,
		BasicConstraintsValid:       true,
		MaxPathLenZero:              true,
		KeyUsage:                    x509.KeyUsageCertSign | x509.KeyUsageCRLSign,
		ExtKeyUsage:                 []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		PermittedDNSDomainsCritical: true,
		PermittedDNSDomains:         a.names.Hosts,
		PermittedIPRanges:           ranges,
	}
	der, err := x509.CreateCertificate(rand.Reader, template, template, key.Public(), key)
	if err != nil {
		return err
	}
	if a.cert, err = x509.ParseCertificate(der); err != nil {
		return err
	}
	a.key = key
	return a.keep(path)
}

// keep writes the file whole or not at all.
func (a *Authority) keep(path string) error {
	der, err := x509.MarshalPKCS8PrivateKey(a.key)
	if err != nil {
		return err
	}
	var text bytes.Buffer
	pem.Encode(&text, &pem.Block{Type: "CERTIFICATE", Bytes: a.cert.Raw})
	pem.Encode(&text, &pem.Block{Type: "PRIVATE KEY", Bytes: der})

	f, err := os.CreateTemp(filepath.Dir(path), ".authority-*") // 0600
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	_, err = f.Write(text.Bytes())
	if err == nil {
		err = f.Sync()
	}
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}

func (a *Authority) open(path string, text []byte) error {
	pair, err := tls.X509KeyPair(text, text)
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	key, ok := pair.PrivateKey.(*ecdsa.PrivateKey)
	if !ok || !pair.Leaf.IsCA {
		return fmt.Errorf("%s holds no authority made by this server", path)
	}
	a.cert, a.key = pair.Leaf, key
	return os.Chmod(path, 0o600)
}

// mayVouch makes a certificate for a's names and looks at it as a phone would.
func (a *Authority) mayVouch(now time.Time) error {
	leaf, err := a.issue(now)
	if err != nil {
		return err
	}
	roots := x509.NewCertPool()
	roots.AddCert(a.cert)
	if _, err := leaf.Leaf.Verify(x509.VerifyOptions{Roots: roots, CurrentTime: now}); err != nil {
		return err
	}
	a.leaf = leaf
	return nil
}

// get hands out the server's certificate, a new one when it is due. Making it
// takes less than a millisecond, so it is kept in memory only: no second key
// on disk. A box without a battery clock may have made it at a wrong hour; it
// is made again once the clock is right.
func (a *Authority) get(*tls.ClientHelloInfo) (*tls.Certificate, error) {
	a.mu.Lock()
	defer a.mu.Unlock()
	now := time.Now()
	if age := now.Sub(a.leaf.Leaf.NotBefore); age < 0 || age > backdate+leafRenew {
		leaf, err := a.issue(now)
		if err != nil {
			return nil, err
		}
		a.leaf = leaf
	}
	return a.leaf, nil
}

// issue makes a certificate for the server.
func (a *Authority) issue(now time.Time) (*tls.Certificate, error) {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	template := &x509.Certificate{
		SerialNumber: serial(),
		Subject:      pkix.Name{CommonName: a.names.First()},
		NotBefore:    now.Add(-backdate),
		NotAfter:     now.Add(leafLife),
		KeyUsage:     x509.KeyUsageDigitalSignature,
		ExtKeyUsage:  []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		DNSNames:     a.names.Hosts,
	}
	for _, addr := range a.names.Addresses {
		template.IPAddresses = append(template.IPAddresses, addr.AsSlice())
	}
	der, err := x509.CreateCertificate(rand.Reader, template, a.cert, key.Public(), a.key)
	if err != nil {
		return nil, err
	}
	leaf, err := x509.ParseCertificate(der)
	if err != nil {
		return nil, err
	}
	return &tls.Certificate{Certificate: [][]byte{der}, PrivateKey: key, Leaf: leaf}, nil
}

// serial is 127 random bits, positive and never zero for practical purposes.
func serial() *big.Int {
	var b [16]byte
	rand.Read(b[:])
	b[0] &= 0x7f
	return new(big.Int).SetBytes(b[:])
}
