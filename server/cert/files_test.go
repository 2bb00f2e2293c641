package cert

import (
	"bytes"
	"crypto/x509"
	"encoding/pem"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// MustWritePair writes a new certificate for name and its key.
func MustWritePair(tb testing.TB, certFile, keyFile, name string) (roots *x509.CertPool) {
	tb.Helper()
	a := MustOwn(tb, tb.TempDir(), name)
	key, err := x509.MarshalPKCS8PrivateKey(a.leaf.PrivateKey)
	if err != nil {
		tb.Fatal(err)
	}
	for path, block := range map[string]*pem.Block{
		certFile: {Type: "CERTIFICATE", Bytes: a.leaf.Certificate[0]},
		keyFile:  {Type: "PRIVATE KEY", Bytes: key},
	} {
		if path == "" {
			continue
		}
		if err := os.WriteFile(path, pem.EncodeToMemory(block), 0o600); err != nil {
			tb.Fatal(err)
		}
	}
	roots = x509.NewCertPool()
	roots.AddCert(a.cert)
	return roots
}

// Ensure renewed files are served without a restart, and that a renewal
// caught half-way takes nobody's connection away.
func TestFilesReload(t *testing.T) {
	dir := t.TempDir()
	certFile, keyFile := filepath.Join(dir, "cert.pem"), filepath.Join(dir, "key.pem")
	var log bytes.Buffer
	first := MustWritePair(t, certFile, keyFile, "hangar.test")
	config, err := Files(certFile, keyFile, slog.New(slog.NewTextHandler(&log, nil)))
	if err != nil {
		t.Fatal(err)
	}
	address := MustServe(t, config, hello)
	reach := func(roots *x509.CertPool) error {
		res, err := visitor(t, roots, address).Get("https://hangar.test/")
		if err == nil {
			res.Body.Close()
		}
		return err
	}
	if err := reach(first); err != nil {
		t.Fatal(err)
	}

	// Only the certificate is new yet: the key doesn't fit.
	MustWritePair(t, certFile, "", "hangar.test")
	later(t, certFile, time.Hour)
	if err := reach(first); err != nil {
		t.Errorf("in the middle of a renewal: %v, want the certificate from before", err)
	}
	if !strings.Contains(log.String(), "can't be used yet") {
		t.Errorf("nobody is told:\n%s", &log)
	}

	second := MustWritePair(t, certFile, keyFile, "hangar.test")
	later(t, certFile, 2*time.Hour)
	if err := reach(second); err != nil {
		t.Errorf("after the renewal: %v", err)
	}
	if err := reach(first); err == nil {
		t.Error("the old certificate is still served")
	}

	// The files vanish while the server runs.
	os.Remove(certFile)
	if err := reach(second); err != nil {
		t.Errorf("with the file gone: %v, want the certificate from before", err)
	}
}

// later moves a file's time, since two writes within one tick of the file
// system's clock could look alike.
func later(tb testing.TB, path string, by time.Duration) {
	tb.Helper()
	at := time.Now().Add(by)
	if err := os.Chtimes(path, at, at); err != nil {
		tb.Fatal(err)
	}
}

// Ensure the server doesn't start on files it can't use, and names them.
func TestFilesMissing(t *testing.T) {
	_, err := Files("/nowhere/cert.pem", "/nowhere/key.pem", quiet())
	if err == nil || !strings.Contains(err.Error(), "/nowhere/cert.pem") {
		t.Errorf("Files = %v, want the name of the file", err)
	}
}
